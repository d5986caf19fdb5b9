#include "history/pickup.h"

namespace coilward {

std::string coils_in_words(const std::vector<PickupCoil>& coils) {
    std::string words;
    for (const auto& [name, coil_model] : coils) {
        if (!words.empty()) words += ' ';
        if (!name.empty()) words += name + '=';
        words += coil_model;
    }
    return words;
}

} // namespace coilward
