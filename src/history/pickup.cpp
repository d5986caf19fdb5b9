#include "history/pickup.h"

#include <algorithm>
#include <array>
#include <map>
#include <stdexcept>
#include <tuple>

namespace coilward {
namespace {

/// A field of a pickup that may be edited, in the order in which they are named.
struct Field {
    std::string_view name;
    std::string Pickup::*text; ///< null for the coils
};

constexpr std::array<Field, 6> fields{{
    {"name", &Pickup::name},
    {"owner", &Pickup::owner},
    {"instrument", &Pickup::instrument},
    {"pickup_type", &Pickup::pickup_type},
    {"coils", nullptr},
    {"notes", &Pickup::notes},
}};

std::size_t place_of(std::string_view field) {
    return static_cast<std::size_t>(std::ranges::find(fields, field, &Field::name) - fields.begin());
}

} // namespace

std::vector<PickupValue> values_of(const Pickup& pickup) {
    std::vector<PickupValue> values;
    for (const Field& field : fields)
        values.push_back({pickup.id, pickup.added_at, std::string(field.name),
                          field.text ? pickup.*field.text : coils_in_words(pickup.coils)});
    return values;
}

void sort_by_time(std::vector<PickupValue>& values, const Id& pickup) {
    const auto key = [&](const PickupValue& value) {
        return std::tuple(value.edit != pickup, value.at, value.edit, place_of(value.field), value.value);
    };
    std::ranges::sort(values, {}, key);
    const auto is_said_twice = [](const PickupValue& a, const PickupValue& b) {
        return a.edit == b.edit && a.field == b.field && a.value == b.value;
    };
    values.erase(std::unique(values.begin(), values.end(), is_said_twice), values.end());
}

void put_latest(const std::vector<PickupValue>& values, Pickup& pickup) {
    for (const PickupValue& given : values) {
        const std::size_t place = place_of(given.field);
        if (place == fields.size())
            throw std::invalid_argument("a pickup has no field \"" + given.field + "\"");
        if (const auto text = fields[place].text)
            pickup.*text = given.value;
        else
            pickup.coils = coils_from_words(given.value);
    }
}

std::vector<PickupChange> changes_in(const std::vector<PickupValue>& values) {
    std::map<std::string_view, std::string_view> former;
    std::vector<PickupChange> changes;
    for (const PickupValue& given : values) {
        const auto [known, first] = former.try_emplace(given.field, given.value);
        if (first) continue;
        changes.push_back({given.edit, given.at, given.field, std::string(known->second)});
        known->second = given.value;
    }
    return changes;
}

std::string coils_in_words(const std::vector<PickupCoil>& coils) {
    std::string words;
    for (const auto& [name, coil_model] : coils) {
        if (!words.empty()) words += ' ';
        if (!name.empty()) words += name + '=';
        words += coil_model;
    }
    return words;
}

std::vector<PickupCoil> coils_from_words(std::string_view words) {
    std::vector<PickupCoil> coils;
    while (!words.empty()) {
        const auto end = std::min(words.find(' '), words.size());
        const auto word = words.substr(0, end);
        const auto sign = word.find('=');
        if (sign == std::string_view::npos)
            coils.push_back({"", std::string(word)});
        else
            coils.push_back({std::string(word.substr(0, sign)), std::string(word.substr(sign + 1))});
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return coils;
}

} // namespace coilward
