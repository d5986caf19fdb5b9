#include "rules/own_rules.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

template <typename Item>
const Item* with_id(const std::vector<Item>& items, std::string_view id) {
    const auto found = std::ranges::find(items, id, &Item::id);
    return found == items.end() ? nullptr : &*found;
}

bool names(const PickupType& type, const std::string& coil_model) {
    return std::ranges::any_of(type.coils, [&](const CoilPlace& place) {
        return std::ranges::find(place.models, coil_model) != place.models.end();
    });
}

void widen(std::optional<Range>& range, const std::optional<Range>& other) {
    if (!other) return;
    if (!range) {
        range = other;
        return;
    }
    range->low = std::min(range->low, other->low);
    range->high = std::max(range->high, other->high);
}

void widen(AllowedRanges& allowed, const AllowedRanges& other) {
    widen(allowed.turns, other.turns);
    widen(allowed.inductance_h, other.inductance_h);
    widen(allowed.inductance_per_ohm2, other.inductance_per_ohm2);
    widen(allowed.quality_factor, other.quality_factor);
    widen(allowed.self_capacitance_f, other.self_capacitance_f);
    widen(allowed.frame_capacitance_f, other.frame_capacitance_f);
}

std::string summary(const std::vector<Complaint>& complaints) {
    if (complaints.empty()) return "bad rules";
    std::string text = complaints.front().text();
    if (complaints.size() > 1) text += fmt::format("\n(and {} more)", complaints.size() - 1);
    return text;
}

} // namespace

const CoilModel* Rules::coil_model(std::string_view id) const {
    return with_id(coil_models, id);
}

const PickupType* Rules::pickup_type(std::string_view id) const {
    return with_id(pickup_types, id);
}

const Fault* Rules::fault(std::string_view id) const {
    return with_id(faults, id);
}

AllowedRanges Rules::allowed(const CoilModel& model) const {
    const bool named =
        std::ranges::any_of(pickup_types, [&](const PickupType& type) { return names(type, model.id); });
    AllowedRanges allowed;
    for (const PickupType& type : pickup_types)
        if (!named || names(type, model.id)) widen(allowed, type.allows);
    return allowed;
}

BadRules::BadRules(std::vector<Complaint> all)
    : std::runtime_error(summary(all)), complaints(std::move(all)) {}

Rules load_rules(const std::filesystem::path& folder, const std::filesystem::path& own_folder) {
    LoadedRules loaded = read_rules(folder, own_folder);
    if (!loaded.complaints.empty()) throw BadRules(std::move(loaded.complaints));
    return std::move(loaded.rules);
}

Rules load_rules(const std::filesystem::path& folder) {
    return load_rules(folder, {});
}

} // namespace coilward
