#include "reading/json_line.h"
#include "report/plan_page.h"

#include <nlohmann/json.hpp>

namespace coilward {
namespace {

using Json = nlohmann::ordered_json;

Json form_of(const Uncertain& number, const char* unit) {
    return {{"value", number.value}, {"standard_uncertainty", number.standard_uncertainty}, {"unit", unit}};
}

Json form_of(const Target& target) {
    const char* quantity = target.kind == TargetKind::turns           ? "turns"
                           : target.kind == TargetKind::dc_resistance ? "dc_resistance_20"
                                                                      : "inductance";
    const char* unit = target.kind == TargetKind::turns           ? "1"
                       : target.kind == TargetKind::dc_resistance ? "ohm"
                                                                  : "H";
    Json form{{"quantity", quantity}};
    form.update(form_of(target.wanted, unit));
    form["from"] = target.from;
    return form;
}

Json inputs_of(const Job& job) {
    Json form{{"wire", job.spool.title},
              {"conductor_diameter", job.spool.conductor_diameter_m},
              {"ohm_per_metre_20", form_of(job.spool.ohm_per_metre_20, "ohm/m")},
              {"overall_diameter", form_of(job.spool.overall_diameter_m, "m")},
              {"packing", form_of(job.packing, "1")},
              {"core_turn_length", turn_length_m(job.bobbin.core)},
              {"wound_height", job.bobbin.height_m},
              {"depth", job.bobbin.depth_m},
              {"tape", job.tape_m},
              {"length_uncertainty", job.length_uncertainty_m},
              {"temperature", form_of(job.temperature_c, "degC")}};
    if (job.coil) {
        form["henry_per_turn2"] = form_of(job.coil->henry_per_turn2, "H");
        form["self_capacitance"] = form_of(job.coil->self_capacitance_f, "F");
        form["coil_from"] = job.coil->from;
    }
    if (job.load) {
        form["load_resistance"] = job.load->resistance_ohm;
        form["load_capacitance"] = job.load->capacitance_f;
    }
    form["sources"] = Json::object();
    for (const InputSource& source : job.sources)
        form["sources"][source.input] = source.from;
    return form;
}

Json figures_of(const Plan& plan) {
    Json figures = Json::array();
    for (const Figure& figure : plan.figures)
        figures.push_back({{"name", figure.name},
                           {"value", figure.value},
                           {"standard_uncertainty", figure.standard_uncertainty},
                           {"unit", figure.unit},
                           {"main_cause", figure.main_cause},
                           {"cause_share", figure.cause_share}});
    return figures;
}

Json form_of(const Fit& fit) {
    return {{"depth_left", fit.depth_left_m},
            {"standard_uncertainty", fit.standard_uncertainty_m},
            {"probability", fit.probability},
            {"may_decide", fit.may_decide}};
}

} // namespace

std::string plan_to_json(const Job& job, const Plan& plan, const std::vector<OtherWire>& others) {
    Json document{{"turns", plan.turns},      {"target", form_of(job.target)},
                  {"inputs", inputs_of(job)}, {"figures", figures_of(plan)},
                  {"fit", form_of(plan.fit)}, {"other_wires", Json::array()},
                  {"notes", plan.notes}};
    for (const OtherWire& other : others)
        document["other_wires"].push_back({{"wire", other.title},
                                           {"turns_for_target", other.turns_for_target},
                                           {"figures", figures_of(other.plan)},
                                           {"fit", form_of(other.plan.fit)}});
    return on_one_line(document);
}

} // namespace coilward
