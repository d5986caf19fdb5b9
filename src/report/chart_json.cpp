#include "reading/json_line.h"
#include "report/chart_page.h"
#include "report/limits_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

Json form_of(const RewoundCoil& coil) {
    Json form{{"pickup", text_of(coil.pickup.id)}, {"name", coil.pickup.name}};
    if (!coil.coil.empty()) form["coil"] = coil.coil;
    form["at"] = text_of(coil.at);
    form["value"] = coil.value.value;
    form["standard_uncertainty"] = coil.value.standard_uncertainty;
    return form;
}

} // namespace

std::string chart_to_json(const RewindChart& chart) {
    const ControlChart& c = chart.chart;
    Json document{{"coil_model", chart.coil_model},
                  {"quantity", name(chart.quantity)},
                  {"unit", unit(chart.quantity)},
                  {"coils", Json::array()},
                  {"moving_ranges", c.moving_ranges},
                  {"mean", c.mean},
                  {"mean_range", c.mean_range},
                  {"deviation", c.deviation},
                  {"control_limits", {c.lower_limit, c.upper_limit}},
                  {"range_limit", c.upper_range_limit},
                  {"signs", Json::array()},
                  {"without_reading", chart.without_reading},
                  {"measurement_uncertainty", chart.measurement_uncertainty}};
    if (chart.frequency_hz) document["frequency"] = *chart.frequency_hz;
    for (const RewoundCoil& coil : chart.coils)
        document["coils"].push_back(form_of(coil));
    for (const DriftSign& sign : chart.signs)
        document["signs"].push_back({{"point", sign.point},
                                     {"rule", drift_rules[sign.rule].name},
                                     {"says", drift_rules[sign.rule].says},
                                     {"false_alarms", drift_rules[sign.rule].false_alarms}});
    if (chart.limits) document["limits"] = limits_form(chart.limits->low, chart.limits->high);
    if (chart.risk)
        document["risk"] = {{"conforming", chart.risk->conforming},
                            {"consumer", chart.risk->consumer},
                            {"producer", chart.risk->producer}};
    return on_one_line(document);
}

} // namespace coilward
