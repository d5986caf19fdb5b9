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

const NamedValue* unit_named(std::string_view text, const LineProtocol& protocol,
                             const MeterSetting& setting) {
    const NamedValue* first = nullptr;
    for (const auto& [name, value] : protocol.units) {
        if (name != text) continue;
        if (is_set_to(setting, value)) return &value;
        if (!first) first = &value;
    }
    return first;
}

bool is_ambiguous_unit(std::string_view text, const LineProtocol& protocol, const MeterSetting& setting) {
    const auto named = [&](const auto& unit) { return unit.first == text; };
    const auto fits = [&](const auto& unit) { return named(unit) && is_set_to(setting, unit.second); };
    return std::ranges::count_if(protocol.units, named) > 1 && std::ranges::none_of(protocol.units, fits);
}

} // namespace coilward
