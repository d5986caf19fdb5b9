#include "mistakes.h"

#include "draw.h"
#include "json_lines.h"
#include "random.h"
#include "score.h"
#include "score_tables.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <numbers>
#include <string>

namespace population {
namespace {

using Json = nlohmann::ordered_json;

Json* reading_of(Json& document, std::string_view quantity, double frequency_hz) {
    for (Json& reading : document["readings"])
        if (reading["quantity"] == quantity && reading.value("frequency", 0.0) == frequency_hz &&
            reading.contains("value") && reading.value("between", "leads") == "leads")
            return &reading;
    return nullptr;
}

void multiply(Json& reading, double by) {
    for (const char* member : {"value", "standard_uncertainty"})
        reading[member] = reading[member].get<double>() * by;
}

/// One reading in kilo-units for units, or the other way.
bool wrong_prefix(Json& document, const Json&, std::uint64_t seed) {
    Random random(seed, 1);
    std::vector<Json*> numbers;
    for (Json& reading : document["readings"])
        if (reading.contains("standard_uncertainty") && reading["quantity"] != "temperature")
            numbers.push_back(&reading);
    multiply(*numbers[random.below(numbers.size())], random.chance(0.5) ? 1e3 : 1e-3);
    return true;
}

bool wrong_model(Json& document, const Json& other, std::uint64_t) {
    document["coil_model"] = other["coil_model"];
    return true;
}

/// The meter was in parallel mode: L' = |Z|²/(ω X), R' = |Z|²/R (impedance-measurement handbooks).
bool parallel_told_series(Json& document, const Json&, std::uint64_t) {
    Json* inductance = reading_of(document, "inductance", 1000.0);
    Json* resistance = reading_of(document, "ac_resistance", 1000.0);
    if (!inductance || !resistance) return false;
    const double omega = 2.0 * std::numbers::pi * 1000.0;
    const double x = omega * (*inductance)["value"].get<double>();
    const double r = (*resistance)["value"].get<double>();
    multiply(*inductance, (r * r + x * x) / (x * x));
    multiply(*resistance, (r * r + x * x) / (r * r));
    return true;
}

bool at_direct_current(const Json& reading) {
    const std::string quantity = reading["quantity"];
    return quantity == "temperature" || quantity == "dc_resistance" || quantity == "polarity";
}

/// The LCR meter's clips were on another coil than the ohmmeter's.
bool two_coils_mixed(Json& document, const Json& other, std::uint64_t) {
    Json readings = Json::array();
    for (const Json& reading : document["readings"])
        if (at_direct_current(reading)) readings.push_back(reading);
    for (const Json& reading : other["readings"])
        if (!at_direct_current(reading)) readings.push_back(reading);
    document["readings"] = std::move(readings);
    return true;
}

/// Fingers on both probes: 0.3 to 2 MΩ beside the coil (common practice, no published source).
bool hand_on_the_probes(Json& document, const Json&, std::uint64_t seed) {
    Json* resistance = reading_of(document, "dc_resistance", 0.0);
    if (!resistance) return false;
    Random random(seed, 2);
    const double coil = (*resistance)["value"].get<double>();
    const double hand = random.log_uniform(3e5, 2e6);
    (*resistance)["value"] = coil * hand / (coil + hand);
    return true;
}

/// One reading was taken on the other coil and written to this one.
bool one_reading_swapped(Json& document, const Json& other, std::uint64_t seed) {
    Random random(seed, 3);
    std::vector<std::pair<Json*, const Json*>> pairs;
    for (Json& reading : document["readings"])
        for (const Json& theirs : other["readings"])
            if (reading.contains("standard_uncertainty") && reading["quantity"] != "temperature" &&
                theirs.contains("standard_uncertainty") && reading["quantity"] == theirs["quantity"] &&
                reading.value("between", "") == theirs.value("between", "") &&
                reading.value("frequency", 0.0) == theirs.value("frequency", 0.0))
                pairs.emplace_back(&reading, &theirs);
    if (pairs.empty()) return false;
    const auto& [mine, theirs] = pairs[random.below(pairs.size())];
    *mine = *theirs;
    return true;
}

const std::vector<Mistake>& all() {
    static const std::vector<Mistake> list{
        {"a prefix wrong by 1000", {"unexplained"}, wrong_prefix},
        {"wrong coil model", {"unexplained", "turns-off", "wrong-wire"}, wrong_model},
        {"parallel mode, told series", {"unexplained"}, parallel_told_series},
        {"AC readings of another coil", {"unexplained", "turns-off", "wrong-wire"}, two_coils_mixed},
        {"one reading of another coil",
         {"unexplained", "healthy", "turns-off", "wrong-wire"},
         one_reading_swapped},
        {"hand on the probes at DC", {"unexplained", "healthy", "still-wired"}, hand_on_the_probes},
    };
    return list;
}

/// Documents of healthy coils with every reading.
class HealthyCoils {
public:
    explicit HealthyCoils(std::uint64_t seed)
        : options_{.seed = seed, .mix = Mix::bench, .protocol = "full"} {}

    Json next() {
        while (true) {
            DrawnCoil drawn = draw_coil(options_, index_++);
            if (drawn.label["fault"] == "healthy") return drawn.readings;
        }
    }

    Json next_of_another_model(const Json& than) {
        while (true)
            if (Json document = next(); document["coil_model"] != than["coil_model"]) return document;
    }

private:
    DrawOptions options_;
    int index_ = 0;
};

struct Score {
    Share fair;
    Share confidently_wrong;
};

} // namespace

std::span<const Mistake> mistakes() {
    return all();
}

void write_mistakes(std::uint64_t seed, int count, const std::filesystem::path& out) {
    std::filesystem::create_directories(out);
    std::ofstream readings(out / "readings.jsonl");
    std::ofstream labels(out / "labels.jsonl");
    HealthyCoils coils(seed);
    for (const Mistake& mistake : mistakes())
        for (int made = 0; made < count;) {
            Json document = coils.next();
            const Json other = coils.next_of_another_model(document);
            if (!mistake.make(document, other, seed + static_cast<std::uint64_t>(made))) continue;
            ++made;
            readings << document.dump() << '\n';
            labels << Json{{"id", document["id"]}, {"mistake", mistake.name}, {"fair", mistake.fair}}.dump()
                   << '\n';
        }
}

void print_mistake_scores(const std::filesystem::path& labels, const std::filesystem::path& answers,
                          std::ostream& out) {
    const std::vector<Json> truths = json_lines(labels);
    const std::vector<Json> verdicts = json_lines(answers);
    std::map<std::string, Score> scores;
    Score whole;
    for (std::size_t i = 0; i < std::min(truths.size(), verdicts.size()); ++i) {
        const Json& verdict = verdicts[i].at("verdict");
        const bool fair = std::ranges::find(truths[i]["fair"], verdict["fault"]) != truths[i]["fair"].end();
        for (Score* score : {&scores[truths[i]["mistake"]], &whole}) {
            score->fair.add(fair);
            score->confidently_wrong.add(!fair && verdict["decided"]);
        }
    }
    out << "| mistake | fair | a wrong fault decided |\n| --- | --- | --- |\n";
    for (const auto& [name, score] : scores)
        out << "| " << name << " | " << with_interval(score.fair) << " | "
            << with_interval(score.confidently_wrong) << " |\n";
    out << "| all | " << with_interval(whole.fair) << " | " << with_interval(whole.confidently_wrong)
        << " |\n";
}

} // namespace population
