#include "rules/severity_table.h"

#include "rules/distribution_table.h"

#include <algorithm>
#include <array>
#include <functional>

#include <fmt/format.h>

namespace coilward {
namespace {

/// A parameter of a primitive (src/coil/fault_element.h), and whether the primitive can do without it.
struct Parameter {
    Primitive primitive;
    std::string_view name;
    Measure measure;
    Need need;
};

constexpr std::array<Parameter, 15> parameters{{
    {Primitive::bridge, "shorted_fraction", measures::share, Need::required},
    {Primitive::bridge, "bridge_resistance", measures::fault_resistance, Need::required},
    {Primitive::bridge, "bridge_leakage", measures::share, Need::required},
    {Primitive::series_element, "series_resistance", measures::fault_resistance, Need::required},
    {Primitive::series_element, "series_capacitance", measures::fault_capacitance, Need::required},
    {Primitive::series_element, "break_position", measures::position, Need::required},
    {Primitive::series_element, "self_capacitance_factor", measures::factor, Need::optional},
    {Primitive::leak, "leak_resistance", measures::fault_resistance, Need::required},
    {Primitive::leak, "leak_position", measures::position, Need::required},
    {Primitive::scale_turns, "turns_factor", measures::factor, Need::required},
    {Primitive::scale_conductor, "resistance_factor", measures::factor, Need::required},
    {Primitive::load, "load_resistance", measures::fault_resistance, Need::required},
    {Primitive::load, "load_capacitance", measures::fault_capacitance, Need::required},
    {Primitive::load, "tone_resistance", measures::fault_resistance, Need::optional},
    {Primitive::load, "tone_capacitance", measures::fault_capacitance, Need::optional},
}};

using Names = std::vector<Word<const Parameter*>>;

template <typename Condition>
Names names_of(Primitive primitive, Condition wanted) {
    Names names;
    for (const Parameter& parameter : parameters)
        if (parameter.primitive == primitive && wanted(parameter))
            names.push_back({parameter.name, &parameter});
    return names;
}

bool belongs_to_a_winding(const Parameter& parameter) {
    return parameter.name == "break_position" || parameter.name == "self_capacitance_factor";
}

std::optional<Severity> read_severity(TableReader table, const Names& names) {
    const auto parameter = table.word<const Parameter*>("name", Need::required, names);
    if (!parameter) return std::nullopt;
    Severity severity;
    severity.name = (*parameter)->name;
    severity.distribution = read_distribution(table, (*parameter)->measure);
    severity.estimated = table.flag("estimated", Need::optional).value_or(false);
    table.refuse_unknown_keys();
    return severity;
}

void refuse_repeated(std::vector<TableReader>& tables, const std::vector<Severity>& severities) {
    for (std::size_t i = 0; i < severities.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (severities[i].name == severities[j].name)
                tables[i].complain(ComplaintKind::said_twice, "name",
                                   fmt::format("found \"{}\" a second time, expected each severity once",
                                               severities[i].name));
}

void require_all(TableReader& parent, const std::vector<Severity>& severities, const Names& names) {
    for (const auto& [name, parameter] : names)
        if (parameter->need == Need::required && std::ranges::count(severities, name, &Severity::name) == 0)
            parent.complain(ComplaintKind::missing_severity, "severity",
                            fmt::format("found none named \"{}\", expected one for this fault", name));
}

std::vector<Severity> read_named(TableReader& parent, const Names& names) {
    if (names.empty()) return {};
    std::vector<Severity> severities;
    std::vector<TableReader> read;
    const auto tables = parent.tables("severity", Need::required);
    for (const TableReader& table : tables) {
        const auto severity = read_severity(table, names);
        if (!severity) continue;
        severities.push_back(*severity);
        read.push_back(table);
    }
    refuse_repeated(read, severities);
    if (read.size() == tables.size() && !tables.empty()) require_all(parent, severities, names);
    return severities;
}

} // namespace

std::vector<Severity> read_severities(TableReader& parent, Primitive primitive) {
    return read_named(parent, names_of(primitive, [](const Parameter&) { return true; }));
}

std::vector<Severity> read_joint_severities(TableReader& parent, Primitive primitive) {
    return read_named(parent, names_of(primitive, std::not_fn(belongs_to_a_winding)));
}

} // namespace coilward
