#include "rewind/hum_cancelling.h"

#include "metrology/normal.h"

#include <algorithm>
#include <cmath>

namespace coilward {
namespace {

const ComparedPair* pair_of_the_first_two(const CoilComparison& comparison, Quantity wanted,
                                          const Reading** question) {
    for (const ComparedQuantity& quantity : comparison.quantities) {
        if (quantity.question.quantity != wanted) continue;
        for (const ComparedPair& pair : quantity.pairs)
            if (pair.first == 0 && pair.second == 1) {
                *question = &quantity.question;
                return &pair;
            }
    }
    return nullptr;
}

std::optional<Polarity> polarity_of(const ComparedCoil& coil) {
    std::optional<Polarity> polarity;
    for (const StoredReading& stored : coil.readings)
        if (stored.reading.quantity == Quantity::polarity && stored.reading.coil == coil.coil)
            polarity = stored.reading.polarity;
    return polarity;
}

/// The kick is held against what the pickup type expects of each coil; of two pickups it is the two kicks
/// themselves.
std::string polarity_in_words(const ComparedCoil& first, const ComparedCoil& second) {
    const auto one = polarity_of(first);
    const auto other = polarity_of(second);
    if (!one || !other) return "the polarity of both must be read before they are joined";
    if (*one == Polarity::none || *other == Polarity::none) return "one of them gives no kick";
    if (first.pickup.id == second.pickup.id)
        return *one == Polarity::as_expected && *other == Polarity::as_expected
                   ? "both kicks are as the pickup type expects"
                   : "a kick is not as the pickup type expects: the pair may add the hum instead";
    return *one != *other
               ? "their kicks are opposite"
               : "their kicks are alike: swap the leads of one, or turn its magnet, as the order wants";
}

} // namespace

std::optional<HumCancelling> hum_cancelling(const CoilComparison& comparison) {
    const Reading* question = nullptr;
    HumCancelling hum;
    if (const ComparedPair* pair = pair_of_the_first_two(comparison, Quantity::inductance, &question)) {
        hum.turns_ratio = {std::sqrt(pair->ratio), pair->ratio_uncertainty / (2.0 * std::sqrt(pair->ratio))};
        hum.turns_from = describe(*question) + ", which goes with the turns squared in one construction";
    } else if (const ComparedPair* direct =
                   pair_of_the_first_two(comparison, Quantity::dc_resistance, &question)) {
        hum.turns_ratio = {direct->ratio, direct->ratio_uncertainty};
        hum.turns_from = "DC resistance at 20 °C, which goes with the turns in one wire and one bobbin";
    } else {
        return std::nullopt;
    }
    // |1 − q| / (1 + q), whose derivative is 2 / (1 + q)².
    const double q = hum.turns_ratio.value;
    hum.hum_left = {std::abs(1.0 - q) / (1.0 + q),
                    2.0 * hum.turns_ratio.standard_uncertainty / ((1.0 + q) * (1.0 + q))};
    hum.may_be_none = hum.hum_left.value < half_width_95 * hum.hum_left.standard_uncertainty;
    hum.polarity = polarity_in_words(comparison.coils[0], comparison.coils[1]);
    return hum;
}

} // namespace coilward
