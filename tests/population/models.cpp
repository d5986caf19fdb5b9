#include "models.h"

#include "circuit.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <numbers>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace population {
namespace {

constexpr std::uint64_t models_seed = 20;
constexpr double test_frequency_hz = 1000.0;

/// What the healthy coils of one construction measure.
struct Samples {
    std::vector<double> turns;
    std::vector<double> mean_turn_length_m;
    std::vector<double> dc_resistance_ohm;
    std::vector<double> inductance_h;
    std::vector<double> quality_factor;
    std::vector<double> self_capacitance_f;
    std::vector<double> frame_capacitance_f;
};

Samples simulate(const Construction& construction, int coils) {
    const double omega = 2.0 * std::numbers::pi * test_frequency_hz;
    Samples samples;
    for (int i = 0; i < coils; ++i) {
        Random random(models_seed, static_cast<std::uint64_t>(i));
        const auto [coil, mean_turn_length_m] = draw_healthy(construction, random);
        const Circuit circuit = circuit_of(coil, {}, 20.0);
        const auto leads =
            impedance_between(circuit.network, circuit.start, circuit.finish, test_frequency_hz);
        const auto frame =
            impedance_between(circuit.network, circuit.start, circuit.frame, test_frequency_hz);
        samples.turns.push_back(coil.turns);
        samples.mean_turn_length_m.push_back(mean_turn_length_m);
        samples.dc_resistance_ohm.push_back(coil.turns * coil.ohm_per_turn_20);
        samples.inductance_h.push_back(leads.imag() / omega);
        samples.quality_factor.push_back(leads.imag() / leads.real());
        samples.self_capacitance_f.push_back(coil.self_capacitance_f);
        samples.frame_capacitance_f.push_back((1.0 / frame).imag() / omega);
    }
    return samples;
}

double quantile(std::vector<double> values, double share) {
    const double at = share * static_cast<double>(values.size() - 1);
    const auto lower = static_cast<std::size_t>(at);
    std::sort(values.begin(), values.end());
    const double rest = at - static_cast<double>(lower);
    return values[lower] * (1.0 - rest) + values[std::min(lower + 1, values.size() - 1)] * rest;
}

std::string range_line(const char* key, const std::vector<double>& values) {
    std::array<char, 100> line{};
    std::snprintf(line.data(), line.size(), "%s = [%.5g, %.5g]\n", key, quantile(values, 0.025),
                  quantile(values, 0.975));
    return line.data();
}

std::string file_text(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    if (!file) throw std::runtime_error(path.string() + ": cannot be read");
    return text.str();
}

void write_file(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path);
    file << text;
    if (!file.flush()) throw std::runtime_error(path.string() + ": cannot be written");
}

/// Replaces the first line that begins with `prior`.
std::string with_prior(const std::string& fault_file, double prior) {
    std::istringstream lines(fault_file);
    std::ostringstream changed;
    bool done = false;
    for (std::string line; std::getline(lines, line);) {
        if (!done && line.starts_with("prior")) {
            changed << "prior = " << prior << "\n";
            done = true;
        } else {
            changed << line << "\n";
        }
    }
    return changed.str();
}

void set_priors(const std::filesystem::path& faults_folder, Mix mix) {
    constexpr double chance_of_others = 0.01;
    for (const auto& entry : std::filesystem::directory_iterator(faults_folder)) {
        if (entry.path().extension() != ".toml") continue;
        const double chance = chance_of(entry.path().stem().string(), mix);
        write_file(entry.path(),
                   with_prior(file_text(entry.path()), chance > 0.0 ? chance : chance_of_others));
    }
}

} // namespace

std::string coil_model_text(const Construction& construction, int coils) {
    const Samples samples = simulate(construction, coils);
    std::ostringstream text;
    text << "id = \"" << construction.id << "\"\n"
         << "title = \"" << construction.title << "\"\n"
         << "source = \"invented: central 95 % of " << coils
         << " healthy coils simulated by tests/population\"\n\n"
         << "[wire]\nawg = " << construction.awg << "\ninsulation = \"plain enamel\"\n\n";
    if (construction.every_range)
        text << "[winding]\n"
             << range_line("turns", samples.turns)
             << range_line("mean_turn_length", samples.mean_turn_length_m) << "\n";
    text << "[expect]\ntest_frequency = 1000\ncircuit = \"series\"\n"
         << range_line("dc_resistance", samples.dc_resistance_ohm)
         << range_line("inductance", samples.inductance_h)
         << range_line("quality_factor", samples.quality_factor);
    if (construction.every_range)
        text << range_line("self_capacitance", samples.self_capacitance_f)
             << range_line("frame_capacitance", samples.frame_capacitance_f);
    return text.str();
}

void write_models(const std::filesystem::path& rules_from, const std::filesystem::path& out,
                  std::optional<Mix> mix) {
    namespace fs = std::filesystem;
    fs::create_directories(out);
    fs::copy(rules_from, out, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    fs::create_directories(out / "coils");
    for (const Construction& construction : constructions())
        write_file(out / "coils" / (std::string(construction.id) + ".toml"), coil_model_text(construction));
    if (mix) set_priors(out / "faults", *mix);
}

} // namespace population
