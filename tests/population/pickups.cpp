#include "pickups.h"

#include "faults.h"
#include "healthy_population.h"
#include "json_lines.h"
#include "meters.h"
#include "score.h"
#include "score_tables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <map>
#include <stdexcept>

namespace population {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 7> states{
    "as_expected", "coil-reversed", "coils-swapped", "joint-open", "still-wired", "open", "shorted-turns"};

// A wire soldered to another, in siemens: more would cost an open coil's megohms their digits. And a pair's
// constructions, whose coil models part them.
constexpr double soldered_siemens = 100.0;
constexpr std::string_view first_model = "sim-dual-one-42";
constexpr std::string_view second_model = "sim-rod-43";

const Construction& construction(std::string_view id) {
    const auto found = std::ranges::find(constructions(), id, &Construction::id);
    if (found == constructions().end())
        throw std::logic_error("no construction is called " + std::string(id));
    return *found;
}

/// Where a network's nodes are in another to which it is appended: all but one behind that one's, which is
/// the same node in both.
struct NodesThere {
    int shift = 0;
    int shared = 0; ///< in the network that is appended
    int shared_there = 0;

    int operator()(int node) const {
        if (node == shared) return shared_there;
        return node + shift - (node > shared ? 1 : 0);
    }
};

NodesThere append(Network& whole, const Network& part, int shared, int shared_there) {
    const NodesThere there{whole.nodes, shared, shared_there};
    whole.nodes += part.nodes - 1;
    for (const int node : part.section_from)
        whole.section_from.push_back(there(node));
    for (const int node : part.section_to)
        whole.section_to.push_back(there(node));
    for (ParallelRC element : part.elements) {
        element.from = there(element.from);
        element.to = there(element.to);
        whole.elements.push_back(element);
    }
    return there;
}

Eigen::VectorXd stacked(const Eigen::VectorXd& upper, const Eigen::VectorXd& lower) {
    Eigen::VectorXd both(upper.size() + lower.size());
    both << upper, lower;
    return both;
}

/// Each section's part of its coil's turns, from how it shares the whole's flux.
Eigen::VectorXd shares(const Eigen::MatrixXd& henry) {
    return henry.rowwise().sum() / henry.sum();
}

struct Visit {
    const PairCircuit& pair;
    const Instruments& instruments;
    Random& random;
    Json readings = Json::array();

    void read(const Network& network, int from, int to, const char* coil) {
        const auto look = [&](double hz) {
            const auto z = impedance_between(network, from, to, hz);
            return Seen{z, z, z, false};
        };
        add(read_dc_resistance(instruments, look(0.0), random), coil);
        const LcrMeasurement at_1_khz(instruments, look(1000.0), random);
        for (const auto& [quantity, circuit] :
             {std::pair{"inductance", "series"}, {"ac_resistance", "series"}, {"quality_factor", ""}})
            if (auto reading = at_1_khz.read({quantity, "leads", circuit, 1000.0}, random))
                add(*reading, coil);
    }

    void add(ReadingJson reading, const char* coil) {
        reading["coil"] = coil;
        readings.push_back(std::move(reading));
    }
};

Network joined(const PairCircuit& pair, double joint_ohm, double joint_farad) {
    Network whole = pair.network;
    whole.elements.push_back({pair.first_finish, pair.second_start, 1.0 / joint_ohm, joint_farad});
    return whole;
}

void add_controls(Network& whole, int hot, int cold, const Controls& controls) {
    whole.elements.push_back({hot, cold, 1.0 / controls.volume_ohm, controls.cable_farad});
    if (controls.tone_farad <= 0.0) return;
    const int middle = whole.new_node();
    whole.elements.push_back({hot, middle, 1.0 / controls.tone_ohm, 0.0});
    whole.elements.push_back({middle, cold, 0.0, controls.tone_farad});
}

/// The leader among the states that a label can have: of the whole, or of a coil that is not sound.
struct Answered {
    std::string state;
    std::string coil;
    bool decided = false;
};

Answered answered(const Json& answer) {
    if (answer.contains("error")) return {"not answered", "", false};
    const Json& verdict = answer["verdict"];
    return {verdict["fault"], verdict["coil"] == "whole" ? "" : std::string(verdict["coil"]),
            verdict["decided"]};
}

} // namespace

std::span<const std::string_view> pickup_states() {
    return states;
}

PairCircuit pair_of(const Coil& first, const Damage& of_first, const Coil& second, const Damage& of_second,
                    double coupling, double temperature_c) {
    const Circuit one = circuit_of(first, of_first, temperature_c);
    const Circuit other = circuit_of(second, of_second, temperature_c);
    PairCircuit pair;
    Network& whole = pair.network;
    whole = one.network;
    const NodesThere of_other = append(whole, other.network, other.frame, one.frame);
    whole.section_ohm = stacked(one.network.section_ohm, other.network.section_ohm);

    const Eigen::MatrixXd& a = one.network.section_henry;
    const Eigen::MatrixXd& b = other.network.section_henry;
    const Eigen::MatrixXd mutual =
        coupling * std::sqrt(a.sum() * b.sum()) * shares(a) * shares(b).transpose();
    whole.section_henry.resize(a.rows() + b.rows(), a.rows() + b.rows());
    whole.section_henry << a, mutual, mutual.transpose(), b;

    for (ClosedLoop& loop : whole.loops)
        loop.mutual_henry = stacked(loop.mutual_henry, Eigen::VectorXd::Zero(b.rows()));
    for (ClosedLoop loop : other.network.loops) {
        loop.mutual_henry = stacked(Eigen::VectorXd::Zero(a.rows()), loop.mutual_henry);
        whole.loops.push_back(loop);
    }
    pair.first_start = one.start;
    pair.first_finish = one.finish;
    pair.second_start = of_other(other.start);
    pair.second_finish = of_other(other.finish);
    return pair;
}

DrawnPickup draw_pickup(std::uint64_t seed, int index) {
    Random random(seed, static_cast<std::uint64_t>(index));
    const std::string_view state = states[random.below(states.size())];
    const bool swapped = state == "coils-swapped";
    const Coil first = draw_healthy(construction(swapped ? second_model : first_model), random).coil;
    const Coil second = draw_healthy(construction(swapped ? first_model : second_model), random).coil;
    std::array<Damage, 2> damage;
    const std::size_t bad = random.below(2);
    if (state == "open" || state == "shorted-turns") damage[bad] = draw_ailment(state, random).damage;
    const double temperature_c = random.uniform(14.0, 31.0);
    const double coupling = random.uniform(0.06, 0.2) * (state == "coil-reversed" ? -1.0 : 1.0);
    const PairCircuit pair = pair_of(first, damage[0], second, damage[1], coupling, temperature_c);

    const Instruments instruments = draw_instruments(true, random);
    Visit visit{pair, instruments, random};
    visit.readings.push_back(read_temperature(instruments, temperature_c, random));
    visit.read(pair.network, pair.first_start, pair.first_finish, "slug");
    visit.read(pair.network, pair.second_start, pair.second_finish, "screw");
    const bool open = state == "joint-open";
    Network whole = open ? joined(pair, random.log_uniform(500.0, 35e6), random.log_uniform(1e-12, 50e-12))
                         : joined(pair, 1.0 / soldered_siemens, 0.0);
    if (state == "still-wired")
        add_controls(whole, pair.first_start, pair.second_finish,
                     *draw_ailment(state, random).damage.controls);
    visit.read(whole, pair.first_start, pair.second_finish, "whole");

    DrawnPickup drawn;
    const std::string id = std::to_string(seed) + "-" + std::to_string(index);
    drawn.readings = {{"id", id},
                      {"pickup_type", "dual-coil-series"},
                      {"coils", {{"slug", first_model}, {"screw", second_model}}},
                      {"readings", visit.readings}};
    drawn.label = {{"id", id}, {"state", state}};
    if (state == "open" || state == "shorted-turns") drawn.label["coil"] = bad == 0 ? "slug" : "screw";
    return drawn;
}

void write_pickups(std::uint64_t seed, int count, const std::filesystem::path& out) {
    std::filesystem::create_directories(out);
    std::ofstream readings(out / "readings.jsonl");
    std::ofstream labels(out / "labels.jsonl");
    for (int index = 0; index < count; ++index) {
        const DrawnPickup drawn = draw_pickup(seed, index);
        readings << drawn.readings.dump() << '\n';
        labels << drawn.label.dump() << '\n';
    }
    if (!readings.flush() || !labels.flush()) throw std::runtime_error(out.string() + ": cannot be written");
}

void print_pickup_scores(const std::filesystem::path& labels, const std::filesystem::path& answers,
                         std::ostream& out) {
    struct Row {
        Share right;
        Share decided;
        Share wrong_when_decided;
    };

    std::map<std::string, Row> rows;
    const std::vector<Json> truths = json_lines(labels);
    const std::vector<Json> all = json_lines(answers);
    if (truths.size() != all.size()) throw std::runtime_error("there are not as many answers as labels");
    for (std::size_t i = 0; i < truths.size(); ++i) {
        const Answered answer = answered(all[i]);
        const bool right = answer.state == truths[i]["state"] && answer.coil == truths[i].value("coil", "");
        for (const std::string& name : {std::string(truths[i]["state"]), std::string("all")}) {
            Row& row = rows[name];
            row.right.add(right);
            row.decided.add(answer.decided);
            if (answer.decided) row.wrong_when_decided.add(!right);
        }
    }
    out << "| two coils in series | verdict is right | decided | wrong when decided |\n| --- | --- | --- | "
           "--- |\n";
    for (const auto& [name, row] : rows)
        out << "| " << name << " | " << with_interval(row.right) << " | " << percent(row.decided.value())
            << " | " << percent(row.wrong_when_decided.value()) << " |\n";
}

} // namespace population
