#include "rules/fault_file.h"

#include "rules/case_readings.h"
#include "rules/severity_table.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::array<Word<FaultStatus>, 3> statuses{{
    {"draft", FaultStatus::draft},
    {"checked", FaultStatus::checked},
    {"proven", FaultStatus::proven},
}};

constexpr std::array<Word<Primitive>, 9> primitives{{
    {"none", Primitive::none},
    {"bridge", Primitive::bridge},
    {"series-element", Primitive::series_element},
    {"leak", Primitive::leak},
    {"scale-turns", Primitive::scale_turns},
    {"scale-conductor", Primitive::scale_conductor},
    {"flip", Primitive::flip},
    {"load", Primitive::load},
    {"unlisted", Primitive::unlisted},
}};

std::vector<Sign> read_signs(TableReader& reader) {
    std::vector<Sign> signs;
    for (TableReader& sign : reader.tables("sign", Need::required)) {
        signs.push_back({.reading = sign.text("reading", Need::required).value_or(""),
                         .shows = sign.text("shows", Need::required).value_or("")});
        sign.refuse_unknown_keys();
    }
    return signs;
}

PolarityChances read_chances(TableReader& polarity) {
    constexpr double rounding = 1e-6;
    const auto chance = [&](std::string_view key) {
        return polarity.number(key, Need::required, measures::probability);
    };
    const auto as_expected = chance("as_expected");
    const auto reversed = chance("reversed");
    const auto none = chance("none");
    if (!as_expected || !reversed || !none) return {};
    const double sum = *as_expected + *reversed + *none;
    if (std::abs(sum - 1.0) > rounding)
        polarity.complain(ComplaintKind::chances_do_not_sum,
                          fmt::format("found chances that sum to {:.6g}, expected 1", sum));
    return {.as_expected = *as_expected, .reversed = *reversed, .none = *none};
}

void read_kick(TableReader polarity, Fault& fault) {
    fault.polarity = read_chances(polarity);
    if (fault.primitive == Primitive::series_element)
        fault.kick_read_across_ohm =
            polarity.number("read_across", Need::optional, measures::fault_resistance);
    polarity.refuse_unknown_keys();
}

PolarityChances read_magnet_pole(TableReader pole) {
    const PolarityChances chances = read_chances(pole);
    pole.refuse_unknown_keys();
    return chances;
}

/// What is not said is as likely as that a reading wanders by itself.
ResponseChances read_response(std::optional<TableReader> response, double unstable_chance) {
    ResponseChances chances{.warmed = unstable_chance, .pressed = unstable_chance};
    if (!response) return chances;
    const auto chance = [&](std::string_view key) {
        return response->number(key, Need::optional, measures::probability).value_or(unstable_chance);
    };
    chances.warmed = chance("warmed");
    chances.pressed = chance("pressed");
    response->refuse_unknown_keys();
    return chances;
}

FaultCase read_case(TableReader table, const IdsInFolder& coil_models) {
    FaultCase worked_case;
    worked_case.name = table.text("name", Need::required).value_or("");
    worked_case.fires = table.flag("fires", Need::required).value_or(false);
    worked_case.coil_model = table.text("coil_model", Need::required).value_or("");
    worked_case.readings = read_case_readings(table);
    table.refuse_unknown_keys();
    if (!worked_case.coil_model.empty() && !coil_models.has_file_for(worked_case.coil_model))
        table.complain(ComplaintKind::unknown_coil_model, "coil_model",
                       fmt::format("found \"{}\", expected the id of a file in coils/",
                                   shortened(worked_case.coil_model)));
    return worked_case;
}

void refuse_same_names(std::vector<TableReader>& tables, const std::vector<FaultCase>& cases) {
    for (std::size_t i = 0; i < cases.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (!cases[i].name.empty() && cases[i].name == cases[j].name)
                tables[i].complain(ComplaintKind::said_twice, "name",
                                   "found the name of another case, expected a name of its own");
}

/// A fault without evidence is a guess: even a draft shows once how it looks and once what only resembles it.
void require_cases(TableReader& reader, const Fault& fault) {
    const auto firing = std::ranges::count(fault.cases, true, &FaultCase::fires);
    const auto near_misses = std::ssize(fault.cases) - firing;
    const int needed = fault.status == FaultStatus::draft ? 1 : 2;
    if (firing < needed || near_misses < needed)
        reader.complain(ComplaintKind::too_few_cases, "case",
                        fmt::format("found {} with fires = true and {} with fires = false, expected at least "
                                    "{} of each in a fault of this status",
                                    firing, near_misses, needed));
}

std::vector<FaultCase> read_cases(TableReader& reader, const IdsInFolder& coil_models) {
    auto tables = reader.tables("case", Need::required);
    std::vector<FaultCase> cases;
    cases.reserve(tables.size());
    for (const TableReader& table : tables)
        cases.push_back(read_case(table, coil_models));
    refuse_same_names(tables, cases);
    return cases;
}

} // namespace

std::optional<Fault> read_fault(const TomlSource& source, IdsInFolder& ids, const IdsInFolder& coil_models,
                                std::vector<Complaint>& complaints) {
    constexpr std::array<std::string_view, 1> not_without_primitive{"severity"};
    const std::size_t before = complaints.size();
    TableReader reader(source, complaints);
    const Heading heading = read_heading(reader, source.file, ids);
    Fault fault;
    fault.id = heading.id;
    fault.title = heading.title;
    fault.source = heading.source;
    fault.file = source.file;
    fault.status = reader.word<FaultStatus>("status", Need::required, statuses).value_or(FaultStatus::draft);
    fault.prior = reader.number("prior", Need::required, measures::prior).value_or(0.0);
    if (const auto primitive = reader.word<Primitive>("primitive", Need::required, primitives)) {
        fault.primitive = *primitive;
        fault.severities = read_severities(reader, *primitive);
    } else {
        reader.know(not_without_primitive);
    }
    fault.signs = read_signs(reader);
    if (auto polarity = reader.table("polarity", Need::required)) read_kick(*polarity, fault);
    if (auto pole = reader.table("magnet_pole", Need::optional)) fault.magnet_pole = read_magnet_pole(*pole);
    fault.unstable_chance = reader.number("unstable", Need::required, measures::probability).value_or(0.0);
    fault.response = read_response(reader.table("response", Need::optional), fault.unstable_chance);
    fault.decide_at = reader.number("decide", Need::required, measures::decision).value_or(fault.decide_at);
    fault.advice = reader.texts("advice", Need::required);
    fault.cautions = reader.texts("cautions", Need::optional);
    const std::size_t before_cases = complaints.size();
    fault.cases = read_cases(reader, coil_models);
    if (complaints.size() == before_cases) require_cases(reader, fault);
    reader.refuse_unknown_keys();
    if (complaints.size() != before) return std::nullopt;
    return fault;
}

} // namespace coilward
