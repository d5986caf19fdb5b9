#include "meter/line_names.h"

#include <algorithm>

namespace coilward {
namespace {

bool is_set_to(const MeterSetting& setting, const NamedValue& unit) {
    return unit.quantity && std::ranges::find(setting.quantities, *unit.quantity) != setting.quantities.end();
}

} // namespace

const NamedValue* key_named(std::string_view text, const LineProtocol& protocol) {
    for (const auto& [name, value] : protocol.keys.like(text))
        if (is_same(text, name)) return &value;
    return nullptr;
}

UnitFound unit_named(std::string_view text, const LineProtocol& protocol, const MeterSetting& setting) {
    UnitFound found;
    for (const auto& [name, value] : protocol.units.like(text)) {
        if (!is_same(text, name)) continue;
        if (!found.unit) { // nearly always the only one
            found.unit = &value;
            continue;
        }
        for (const NamedValue* each : {found.unit, &value})
            if (is_set_to(setting, *each)) return {.unit = each};
        found.is_ambiguous = true;
    }
    return found;
}

} // namespace coilward
