#include "rules/coils_of_type.h"

#include <algorithm>

namespace coilward {

std::vector<std::string> coil_names(const PickupType& type) {
    std::vector<std::string> names(type.coils.size());
    std::ranges::transform(type.coils, names.begin(), &CoilPlace::name);
    return names;
}

bool are_coils_of(const PickupType& type, const std::vector<std::string>& names) {
    const auto wanted = coil_names(type);
    const bool nameless = names == std::vector<std::string>{""};
    return (nameless && wanted.size() == 1) || std::ranges::is_permutation(names, wanted);
}

} // namespace coilward
