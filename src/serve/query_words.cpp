#include "serve/query_words.h"

#include "rewind/quantity_words.h"

namespace coilward {
namespace {

std::string word(const httplib::Request& request, const char* name) {
    return request.get_param_value(name);
}

/// A check box that is set arrives as "on".
bool is_set(const httplib::Request& request, const char* name) {
    return request.has_param(name);
}

BobbinWords bobbin_in(const httplib::Request& request) {
    BobbinWords words{.core = word(request, "core"),
                      .flange = word(request, "flange"),
                      .height = word(request, "height"),
                      .corner = word(request, "corner"),
                      .tape = word(request, "tape")};
    if (const std::string said = word(request, "bobbin-uncertainty"); !said.empty()) words.uncertainty = said;
    return words;
}

int gauge_in(const httplib::Request& request) {
    const std::string said = word(request, "awg");
    if (said.empty()) return 0;
    const double number = positive_in_words("--awg", said, "1");
    const int gauge = number <= 60.0 ? static_cast<int>(number) : 0;
    if (gauge != number) throw BadWords("--awg", "\"" + said + "\" is no gauge; it is a whole number, as 42");
    return gauge;
}

WireWords wire_in(const httplib::Request& request) {
    return {.awg = gauge_in(request),
            .metric = word(request, "metric"),
            .exact = is_set(request, "exact"),
            .heavy = is_set(request, "heavy"),
            .ohm_per_metre = word(request, "ohm-per-metre"),
            .overall_diameter = word(request, "overall-diameter")};
}

} // namespace

PlanWords plan_words_in(const httplib::Request& request) {
    return {.bobbin = bobbin_in(request),
            .wire = wire_in(request),
            .turns = word(request, "turns"),
            .resistance = word(request, "dc-resistance"),
            .inductance = word(request, "inductance"),
            .sister_turns = word(request, "sister-turns"),
            .sister_inductance = word(request, "sister-inductance"),
            .self_capacitance = word(request, "self-capacitance"),
            .packing = word(request, "packing"),
            .temperature = word(request, "temperature"),
            .load_resistance = word(request, "controls"),
            .load_capacitance = word(request, "cable")};
}

ConfirmationWords confirmation_words_in(const httplib::Request& request) {
    ConfirmationWords words{.coil = word(request, "coil"),
                            .as_it_was = word(request, "as-it-was"),
                            .turns = word(request, "turns"),
                            .temperature = word(request, "temperature")};
    for (std::size_t i = 0; i < request.get_param_value_count("limit"); ++i)
        if (const std::string limit = request.get_param_value("limit", i); !limit.empty())
            words.limits.push_back(limit);
    if (const std::string said = word(request, "least-insulation"); !said.empty())
        words.least_insulation = said;
    return words;
}

ModelWords model_words_in(const httplib::Request& request) {
    return {.type = word(request, "type"),
            .turns = word(request, "turns"),
            .resistance = word(request, "dc-resistance"),
            .temperature = word(request, "temperature"),
            .inductance = word(request, "inductance"),
            .bobbin = bobbin_in(request),
            .wire = wire_in(request)};
}

} // namespace coilward
