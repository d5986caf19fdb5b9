#include "cli/plan_words.h"

#include "cli/quantity_words.h"

#include <stdexcept>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

/// The rules' own complaints, as those of the option.
template <typename Work>
auto in_option(const char* option, const Work& work) {
    try {
        return work();
    } catch (const std::invalid_argument& error) {
        throw CLI::ValidationError(option, error.what());
    }
}

struct Size {
    double length_m;
    double width_m;
    bool round;
};

/// "56mm,4.8mm" or a diameter alone. A comma parts the two, so a decimal is written with a point here.
Size size_in_words(const char* option, const std::string& words) {
    const auto comma = words.find(',');
    if (comma == std::string::npos) {
        const double diameter = positive_in_words(option, words, "m");
        return {diameter, diameter, true};
    }
    return {positive_in_words(option, words.substr(0, comma), "m"),
            positive_in_words(option, words.substr(comma + 1), "m"), false};
}

Build build_in(const WireWords& words) {
    return words.heavy ? Build::heavy : Build::single;
}

AwgDiameter diameter_in(const WireWords& words) {
    return words.exact ? AwgDiameter::exact : AwgDiameter::nominal;
}

} // namespace

void add_bobbin_options(CLI::App& command, BobbinWords& words) {
    command.add_option(
        "--core", words.core,
        "What the wire lies on, with its tape: LENGTH,WIDTH of a racetrack, or a diameter; else the "
        "coil model's bobbin");
    command.add_option("--flange", words.flange, "LENGTH,WIDTH of the flanges, or their diameter; likewise");
    command.add_option("--height", words.height, "Between the flanges; likewise");
    command.add_option(
        "--corner", words.corner,
        "Radius of the corners, where the core is a block such as a bar magnet wound in place");
    command.add_option("--tape", words.tape, "Depth to keep free for the tape around the winding");
    command
        .add_option("--bobbin-uncertainty", words.uncertainty,
                    "Standard uncertainty of each of these lengths")
        ->capture_default_str();
}

void add_wire_options(CLI::App& command, WireWords& words) {
    auto* size = command.add_option_group("wire size", "One of; else the coil model's gauge");
    size->add_option("--awg", words.awg, "Gauge, 36 to 46");
    size->add_option("--metric", words.metric,
                     "Nominal diameter of a size of IEC 60317-0-1, such as 0.063mm");
    size->require_option(0, 1);
    command.add_flag("--exact", words.exact, "The exact diameter of ASTM B258 in place of the nominal one");
    command.add_flag("--heavy", words.heavy, "Heavy build (grade 2) in place of single (grade 1)");
    command.add_option("--ohm-per-metre", words.ohm_per_metre,
                       "Measured of this spool at 20 °C, such as 5.41±0.02");
    command.add_option("--overall-diameter", words.overall_diameter,
                       "Measured of this spool over the enamel, such as 71u±0.5u");
}

void complete(BobbinWords& bobbin, WireWords& wire, const CoilModel* model,
              std::vector<InputSource>& sources) {
    const std::string of_model = model == nullptr ? "" : fmt::format("the coil model {}", model->id);
    const BobbinSize size = model == nullptr ? BobbinSize{} : model->bobbin;
    const auto complete_one = [&](const char* option, const char* input, std::string& words, auto known,
                                  auto in_words) {
        const bool said = !words.empty();
        if (!said && !known)
            throw CLI::ValidationError(
                option, model == nullptr
                            ? "say it, or name a coil model that has a [bobbin] with --model"
                            : fmt::format("say it; {} does not tell ({} has it in [bobbin] and [wire])",
                                          of_model, model->file));
        if (!said) words = in_words();
        sources.push_back({input, said ? "said" : of_model});
    };
    complete_one("--core", "core", bobbin.core, size.core_length_m && size.core_width_m,
                 [&] { return fmt::format("{},{}", *size.core_length_m, *size.core_width_m); });
    complete_one("--flange", "flange", bobbin.flange, size.flange_length_m && size.flange_width_m,
                 [&] { return fmt::format("{},{}", *size.flange_length_m, *size.flange_width_m); });
    complete_one("--height", "wound height", bobbin.height, size.wound_height_m.has_value(),
                 [&] { return fmt::format("{}", *size.wound_height_m); });
    std::string gauge = wire.awg != 0 ? std::to_string(wire.awg) : wire.metric;
    complete_one("--awg", "wire size", gauge, model != nullptr && model->wire.awg,
                 [&] { return std::to_string(*model->wire.awg); });
    if (wire.metric.empty()) wire.awg = std::stoi(gauge);
}

Job job_on(const BobbinWords& words) {
    const Size core = size_in_words("--core", words.core);
    const Size flange = size_in_words("--flange", words.flange);
    Job job;
    job.bobbin.core = in_option("--core", [&] {
        if (!words.corner.empty())
            return block_outline(core.length_m, core.width_m,
                                 positive_in_words("--corner", words.corner, "m"));
        return core.round ? round_outline(core.length_m / 2.0)
                          : racetrack_outline(core.length_m, core.width_m);
    });
    job.bobbin.depth_m = in_option("--flange", [&] {
        return flange_depth_m(core.length_m, core.width_m, flange.length_m, flange.width_m);
    });
    job.bobbin.height_m = positive_in_words("--height", words.height, "m");
    job.length_uncertainty_m = positive_in_words("--bobbin-uncertainty", words.uncertainty, "m");
    if (!words.tape.empty()) job.tape_m = positive_in_words("--tape", words.tape, "m");
    return job;
}

Spool spool_in(const WireWords& words) {
    SpoolMeasured measured;
    if (!words.ohm_per_metre.empty())
        measured.ohm_per_metre_20 = uncertain_in_words("--ohm-per-metre", words.ohm_per_metre, "ohm");
    if (!words.overall_diameter.empty())
        measured.overall_diameter_m = uncertain_in_words("--overall-diameter", words.overall_diameter, "m");
    if (words.metric.empty())
        return in_option("--awg", [&] {
            return with_measured(awg_spool(words.awg, diameter_in(words), build_in(words)), measured);
        });
    return in_option("--metric", [&] {
        return with_measured(metric_spool(positive_in_words("--metric", words.metric, "m"), build_in(words)),
                             measured);
    });
}

std::vector<Spool> neighbours_of(const WireWords& words) {
    if (words.metric.empty()) return next_gauges(words.awg, diameter_in(words), build_in(words));
    return next_metric_sizes(positive_in_words("--metric", words.metric, "m"), build_in(words));
}

} // namespace coilward
