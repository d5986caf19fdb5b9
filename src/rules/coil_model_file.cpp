#include "rules/coil_model_file.h"

#include "wire/gauge.h"

#include <fmt/format.h>

namespace coilward {
namespace {

ConductorChoice read_wire(TableReader wire) {
    constexpr int thickest = 24; // half a millimetre, beyond any pickup
    ConductorChoice choice{.awg = wire.whole_number("awg", Need::optional, thickest, smallest_awg),
                           .conductor_diameter_m = wire.number("conductor_diameter", Need::optional,
                                                               measures::conductor_diameter),
                           .insulation = wire.text("insulation", Need::optional).value_or("")};
    if (wire.has("awg") == wire.has("conductor_diameter"))
        wire.complain(ComplaintKind::not_exactly_one,
                      fmt::format("found {}, expected exactly one of awg and conductor_diameter",
                                  wire.has("awg") ? "both" : "neither"));
    wire.refuse_unknown_keys();
    return choice;
}

/// A flange holds the wire in, so it is larger than the core.
void check_flange(TableReader& bobbin, std::string_view key, std::optional<double> flange,
                  std::string_view core_key, std::optional<double> core) {
    if (flange && core && *flange <= *core)
        bobbin.complain(
            ComplaintKind::flange_inside_core, key,
            fmt::format("found {}, expected more than {}, which is {}", *flange, core_key, *core));
}

BobbinSize read_bobbin(TableReader bobbin) {
    const auto length = [&](std::string_view key, const Measure& measure) {
        return bobbin.number(key, Need::optional, measure);
    };
    const BobbinSize size{.core_length_m = length("core_length", measures::bobbin_length),
                          .core_width_m = length("core_width", measures::bobbin_width),
                          .wound_height_m = length("wound_height", measures::bobbin_height),
                          .flange_length_m = length("flange_length", measures::bobbin_length),
                          .flange_width_m = length("flange_width", measures::bobbin_width)};
    check_flange(bobbin, "flange_length", size.flange_length_m, "core_length", size.core_length_m);
    check_flange(bobbin, "flange_width", size.flange_width_m, "core_width", size.core_width_m);
    bobbin.refuse_unknown_keys();
    return size;
}

void read_winding(TableReader winding, CoilModel& model) {
    model.turns = winding.range("turns", Need::optional, measures::turns);
    model.mean_turn_length_m = winding.range("mean_turn_length", Need::optional, measures::turn_length);
    winding.refuse_unknown_keys();
}

void read_expectation(TableReader expect, CoilModel& model) {
    const auto range = [&](std::string_view key, const Measure& measure) {
        return expect.range(key, Need::optional, measure);
    };
    model.test_frequency_hz = expect.number("test_frequency", Need::optional, measures::test_frequency)
                                  .value_or(model.test_frequency_hz);
    model.circuit =
        expect.vocabulary_word<Circuit>("circuit", Need::optional, circuit_named).value_or(model.circuit);
    model.dc_resistance_ohm =
        expect.range("dc_resistance", Need::required, measures::coil_resistance).value_or(Range{});
    model.inductance_h = range("inductance", measures::inductance);
    model.quality_factor = range("quality_factor", measures::quality_factor);
    model.self_capacitance_f = range("self_capacitance", measures::capacitance);
    model.frame_capacitance_f = range("frame_capacitance", measures::capacitance);
    expect.refuse_unknown_keys();
}

} // namespace

std::optional<CoilModel> read_coil_model(const TomlSource& source, IdsInFolder& ids,
                                         std::vector<Complaint>& complaints) {
    const std::size_t before = complaints.size();
    TableReader reader(source, complaints);
    const Heading heading = read_heading(reader, source.file, ids);
    CoilModel model;
    model.id = heading.id;
    model.title = heading.title;
    model.source = heading.source;
    model.file = source.file;
    if (auto wire = reader.table("wire", Need::required)) model.wire = read_wire(std::move(*wire));
    if (auto winding = reader.table("winding", Need::optional)) read_winding(std::move(*winding), model);
    if (auto bobbin = reader.table("bobbin", Need::optional)) model.bobbin = read_bobbin(std::move(*bobbin));
    if (auto expect = reader.table("expect", Need::required)) read_expectation(std::move(*expect), model);
    reader.refuse_unknown_keys();
    if (complaints.size() != before) return std::nullopt;
    return model;
}

} // namespace coilward
