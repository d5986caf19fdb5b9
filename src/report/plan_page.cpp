#include "report/plan_page.h"

#include "report/text_block.h"
#include "report/verdict_words.h"
#include "units/engineering.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::size_t title_width = 30;
constexpr std::size_t amount_width = 24;

std::string cause(const Figure& figure) {
    if (figure.main_cause.empty()) return "";
    return fmt::format("mainly {} ({})", figure.main_cause, percent(figure.cause_share));
}

std::string row(const std::string& title, const std::string& text, const std::string& behind = "") {
    std::string line =
        "  " + padded(title, title_width) + padded(text, behind.empty() ? 0 : amount_width) + behind;
    return line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
}

std::string in_words(const Target& target) {
    const char* what = target.kind == TargetKind::turns           ? "turns"
                       : target.kind == TargetKind::dc_resistance ? "DC resistance at 20 °C"
                                                                  : "inductance";
    const char* unit = target.kind == TargetKind::turns           ? "1"
                       : target.kind == TargetKind::dc_resistance ? "ohm"
                                                                  : "H";
    const auto& [value, u] = target.wanted;
    return fmt::format("{} {} ({})", what,
                       u > 0.0 ? engineering_with_uncertainty(value, u, unit)
                               : engineering_shortest(value, unit),
                       target.from);
}

const Figure* figure(const Plan& plan, const std::string& name) {
    const auto found = std::ranges::find(plan.figures, name, &Figure::name);
    return found == plan.figures.end() ? nullptr : &*found;
}

std::string other_wire(const OtherWire& other, const Plan& plan) {
    return fmt::format("  {}\n", other.title) +
           wrapped(fmt::format("{:.0f} turns: DC resistance at 20 °C {}, wire {}; fits: {}", plan.turns,
                               amount_in_words(*figure(other.plan, "dc_resistance_20")),
                               amount_in_words(*figure(other.plan, "wire_length")),
                               fit_in_words(other.plan.fit)),
                   "    ") +
           fmt::format("    the target takes {:.0f} turns\n", other.turns_for_target);
}

} // namespace

std::string amount_in_words(const Figure& figure) {
    // A kilogram takes no further prefix.
    const bool mass = figure.unit == "kg";
    const double scale = mass ? 1000.0 : 1.0;
    const std::string unit = mass ? "g" : figure.unit;
    if (figure.standard_uncertainty == 0.0) return engineering_shortest(figure.value * scale, unit);
    return engineering_with_uncertainty(figure.value * scale, figure.standard_uncertainty * scale, unit);
}

std::string fit_in_words(const Fit& fit) {
    if (!fit.may_decide)
        return fmt::format("perhaps, {}, but the wire's diameter rests on no published source",
                           percent(fit.probability));
    if (fit.probability >= 0.95) return fmt::format("yes, {}", percent(fit.probability));
    if (fit.probability <= 0.05) return fmt::format("no, only {}", percent(fit.probability));
    return fmt::format("undecided, {}", percent(fit.probability));
}

std::string figure_title(const std::string& name) {
    static const std::map<std::string, std::string> titles{
        {"turns", "turns for the target"},
        {"wire_length", "wire, length"},
        {"wire_mass", "wire, mass"},
        {"layers", "layers, were they neat"},
        {"winding_depth", "depth of the winding"},
        {"depth_left", "depth left beside the tape"},
        {"fill", "share of the depth, with tape"},
        {"dc_resistance_20", "DC resistance at 20 °C"},
        {"dc_resistance", "DC resistance at the bench"},
        {"inductance", "inductance"},
        {"resonance_frequency", "resonance, nothing connected"},
        {"loaded_resonance_frequency", "resonance with the load"}};
    const auto found = titles.find(name);
    return found == titles.end() ? name : found->second;
}

std::string plan_page(const Job& job, const Plan& plan, const std::vector<OtherWire>& others) {
    std::string page = fmt::format("Set the counter to {:.0f} turns\n\n", plan.turns);
    page += row("target", in_words(job.target));
    page += row("wire", job.spool.title);
    page += row(
        "",
        fmt::format("{} per metre, {} over the enamel",
                    engineering_with_uncertainty(job.spool.ohm_per_metre_20.value,
                                                 job.spool.ohm_per_metre_20.standard_uncertainty, "ohm"),
                    engineering_with_uncertainty(job.spool.overall_diameter_m.value,
                                                 job.spool.overall_diameter_m.standard_uncertainty, "m")));
    page += row("packing",
                engineering_with_uncertainty(job.packing.value, job.packing.standard_uncertainty, "1"));
    page += row("bench", engineering_with_uncertainty(job.temperature_c.value,
                                                      job.temperature_c.standard_uncertainty, "degC"));
    if (job.coil)
        page += row("henry per turn²",
                    fmt::format("{:.3g} ± {:.2g} nH, from {}", job.coil->henry_per_turn2.value * 1e9,
                                job.coil->henry_per_turn2.standard_uncertainty * 1e9, job.coil->from));
    if (job.load)
        page +=
            row("connected", fmt::format("{} and {}", engineering_shortest(job.load->resistance_ohm, "ohm"),
                                         engineering_shortest(job.load->capacitance_f, "F")));
    page += "\n";
    for (const Figure& each : plan.figures)
        page += row(figure_title(each.name), amount_in_words(each), cause(each));
    page += row("does it fit?", fit_in_words(plan.fit));
    if (!others.empty()) page += "\nThe same turns with the next wires\n";
    for (const OtherWire& other : others)
        page += other_wire(other, plan);
    if (!job.sources.empty()) page += "\nWhere the inputs come from\n";
    for (const InputSource& source : job.sources)
        page += row(source.input, source.from);
    if (!plan.notes.empty()) page += "\n";
    for (const std::string& note : plan.notes)
        page += wrapped(note, "  · ");
    return page;
}

} // namespace coilward
