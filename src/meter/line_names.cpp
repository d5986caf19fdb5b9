#include "meter/line_names.h"

#include <algorithm>

namespace coilward {
namespace {

bool is_set_to(const MeterSetting& setting, const NamedValue& unit) {
    return unit.quantity && std::ranges::find(setting.quantities, *unit.quantity) != setting.quantities.end();
}

} // namespace

const StandIn* stand_in_named(std::string_view text, const std::vector<StandIn>& known) {
    for (const StandIn& word : known)
        if (is_like(text, word.text)) return &word;
    return nullptr;
}

const NamedValue* key_named(std::string_view text, const LineProtocol& protocol) {
    for (const auto& [name, value] : protocol.keys)
        if (name == text) return &value;
    return nullptr;
}

UnitFound unit_named(std::string_view text, const LineProtocol& protocol, const MeterSetting& setting) {
    UnitFound found;
    for (const auto& [name, value] : protocol.units) {
        if (name != text) continue;
        if (is_set_to(setting, value)) return {.unit = &value};
        found.is_ambiguous = found.unit != nullptr;
        if (!found.unit) found.unit = &value;
    }
    return found;
}

} // namespace coilward
