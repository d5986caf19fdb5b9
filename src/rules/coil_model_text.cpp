#include "rules/coil_model_text.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::string quoted(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '"' || c == '\\') safe += '\\';
        safe += c == '\n' ? ' ' : c;
    }
    return '"' + safe + '"';
}

std::string line(const char* key, const std::optional<Range>& range) {
    return range ? fmt::format("{} = [{:.4g}, {:.4g}]\n", key, range->low, range->high) : "";
}

std::string line(const char* key, const std::optional<double>& number) {
    return number ? fmt::format("{} = {:.4g}\n", key, *number) : "";
}

/// A table with its heading; nothing where it has no lines.
std::string table(const char* name, const std::string& lines) {
    return lines.empty() ? "" : fmt::format("\n[{}]\n{}", name, lines);
}

std::string wire_lines(const ConductorChoice& wire) {
    std::string lines;
    if (wire.awg)
        lines += fmt::format("awg = {}\n", *wire.awg);
    else
        lines += line("conductor_diameter", wire.conductor_diameter_m);
    if (!wire.insulation.empty()) lines += fmt::format("insulation = {}\n", quoted(wire.insulation));
    return lines;
}

} // namespace

std::string coil_model_text(const CoilModel& model) {
    const BobbinSize& bobbin = model.bobbin;
    const std::string measured =
        model.inductance_h || model.quality_factor
            ? fmt::format("test_frequency = {:.6g}\ncircuit = {}\n", model.test_frequency_hz,
                          quoted(std::string(name(model.circuit))))
            : "";
    return fmt::format("id = {}\ntitle = {}\nsource = {}\n", quoted(model.id), quoted(model.title),
                       quoted(model.source)) +
           table("wire", wire_lines(model.wire)) +
           table("winding", line("turns", model.turns) + line("mean_turn_length", model.mean_turn_length_m)) +
           table("bobbin", line("core_length", bobbin.core_length_m) +
                               line("core_width", bobbin.core_width_m) +
                               line("wound_height", bobbin.wound_height_m) +
                               line("flange_length", bobbin.flange_length_m) +
                               line("flange_width", bobbin.flange_width_m)) +
           table("expect", measured + line("dc_resistance", std::optional(model.dc_resistance_ohm)) +
                               line("inductance", model.inductance_h) +
                               line("quality_factor", model.quality_factor) +
                               line("self_capacitance", model.self_capacitance_f) +
                               line("frame_capacitance", model.frame_capacitance_f));
}

} // namespace coilward
