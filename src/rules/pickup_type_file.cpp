#include "rules/pickup_type_file.h"

#include "rules/joint_table.h"
#include "toml/utf8.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::array<Word<Join>, 3> joins{
    {{"single", Join::single}, {"series", Join::series}, {"parallel", Join::parallel}}};

constexpr std::array<Word<int>, 2> windings{{{"clockwise", 1}, {"counter-clockwise", -1}}};

constexpr std::array<Word<int>, 3> magnets{{{"north-up", 1}, {"south-up", -1}, {"none", 0}}};

CoilPlace read_place(TableReader& table, const IdsInFolder& coil_models) {
    CoilPlace place;
    place.name = table.text("name", Need::required).value_or("");
    place.models = table.texts("models", Need::optional);
    place.winding_sense = table.word<int>("winding", Need::required, windings).value_or(1);
    place.magnet_polarity = table.word<int>("magnet", Need::required, magnets).value_or(1);
    table.refuse_unknown_keys();
    for (const std::string& model : place.models)
        if (!coil_models.has_file_for(model))
            table.complain(ComplaintKind::unknown_coil_model, "models",
                           fmt::format("found \"{}\", expected ids of files in coils/", shortened(model)));
    return place;
}

std::vector<CoilPlace> read_places(TableReader& reader, std::optional<Join> join,
                                   const IdsInFolder& coil_models) {
    std::vector<CoilPlace> places;
    auto tables = reader.tables("coil", Need::required);
    for (TableReader& table : tables) {
        places.push_back(read_place(table, coil_models));
        if (std::ranges::count(places, places.back().name, &CoilPlace::name) > 1)
            table.complain(ComplaintKind::said_twice, "name",
                           "found the name of another coil, expected a name of its own");
    }
    if (!join || places.empty()) return places;
    const bool several = *join != Join::single;
    if (several == (places.size() == 1))
        reader.complain(ComplaintKind::wrong_coil_count, "coil",
                        fmt::format("found {}, expected {}", places.size(),
                                    several ? "at least 2 where coils are joined" : "1 in a single coil"));
    return places;
}

AllowedRanges read_allowed(TableReader allows) {
    const auto range = [&](std::string_view key, const Measure& measure) {
        return allows.range(key, Need::required, measure);
    };
    AllowedRanges allowed{.turns = range("turns", measures::turns),
                          .inductance_h = range("inductance", measures::inductance),
                          .inductance_per_ohm2 = range("inductance_per_ohm2", measures::inductance_per_ohm2),
                          .quality_factor = range("quality_factor", measures::quality_factor),
                          .self_capacitance_f = range("self_capacitance", measures::capacitance),
                          .frame_capacitance_f = range("frame_capacitance", measures::capacitance)};
    allows.refuse_unknown_keys();
    return allowed;
}

} // namespace

std::optional<PickupType> read_pickup_type(const TomlSource& source, IdsInFolder& ids,
                                           const IdsInFolder& coil_models,
                                           std::vector<Complaint>& complaints) {
    const std::size_t before = complaints.size();
    TableReader reader(source, complaints);
    const Heading heading = read_heading(reader, source.file, ids);
    PickupType type;
    type.id = heading.id;
    type.title = heading.title;
    type.source = heading.source;
    type.file = source.file;
    const auto join = reader.word<Join>("join", Need::required, joins);
    type.join = join.value_or(Join::single);
    type.coils = read_places(reader, join, coil_models);
    if (!join) {
        constexpr std::array<std::string_view, 3> keys_of_a_joint{"coupling", "joint", "decide"};
        reader.know(keys_of_a_joint);
    } else if (*join != Join::single) {
        type.coupling = reader.range("coupling", Need::required, measures::coupling);
        type.joint_faults = read_joint_faults(reader);
        type.decide_joint_at =
            reader.number("decide", Need::required, measures::decision).value_or(type.decide_joint_at);
    }
    if (auto allows = reader.table("allows", Need::required)) type.allows = read_allowed(*allows);
    reader.refuse_unknown_keys();
    if (complaints.size() != before) return std::nullopt;
    return type;
}

} // namespace coilward
