#include "diagnosis/polarity_finding.h"

#include "rules/pickup_type.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::optional<Polarity> last_of(Quantity quantity, const std::vector<Reading>& readings) {
    std::optional<Polarity> last;
    for (const Reading& reading : readings)
        if (reading.quantity == quantity && reading.polarity) last = reading.polarity;
    return last;
}

bool has_sign(const std::optional<Polarity>& polarity) {
    return polarity && *polarity != Polarity::none;
}

std::string alone(const PolarityFinding& found) {
    if (found.kick == Polarity::none) return "there is no kick: winding and magnet cannot be told from it";
    if (found.kick == Polarity::reversed)
        return "the kick is reversed: leads exchanged, or the magnet turned; a compass tells which";
    if (found.kick == Polarity::as_expected) return "the kick is as it should be";
    if (found.magnet == Polarity::none) return "the compass shows no magnet: it is missing or dead";
    return found.magnet == Polarity::as_expected
               ? "the magnet is as it should be; the kick tells whether the winding is"
               : "the magnet has the other pole up; the kick tells whether the winding is turned as well";
}

std::string together(const PolarityFinding& found) {
    const bool magnet = found.magnet == Polarity::as_expected;
    const bool winding = found.winding == Polarity::as_expected;
    if (magnet && winding) return "winding and magnet are as they should be";
    if (magnet) return "the magnet is right: the leads are exchanged, or the coil is wound the other way";
    if (winding) return "the magnet is turned; the winding is right";
    return "winding and magnet are both the other way round, as in a partner made to cancel hum";
}

/// In a pickup type that says how its coils are wound, in its words; else beside this coil.
std::string partner_of(const PolarityFinding& found, const CoilPlace* place) {
    if (!place || place->magnet_polarity == 0)
        return "to cancel hum, a partner needs the other winding sense and the other pole up than this coil "
               "has now: its kick then has the same sign as this one's";
    const int winding = found.winding == Polarity::as_expected ? place->winding_sense : -place->winding_sense;
    const int magnet =
        found.magnet == Polarity::as_expected ? place->magnet_polarity : -place->magnet_polarity;
    return fmt::format("as it is now, it cancels hum with a coil that is wound {} and has its {} pole up",
                       winding > 0 ? "counter-clockwise" : "clockwise", magnet > 0 ? "south" : "north");
}

} // namespace

std::optional<PolarityFinding> polarity_finding(const std::vector<Reading>& readings,
                                                const CoilPlace* place) {
    PolarityFinding found{.kick = last_of(Quantity::polarity, readings),
                          .magnet = last_of(Quantity::magnet_pole, readings)};
    if (!found.kick && !found.magnet) return std::nullopt;
    if (!has_sign(found.kick) || !has_sign(found.magnet)) {
        found.says = alone(found);
        return found;
    }
    found.winding = found.kick == found.magnet ? Polarity::as_expected : Polarity::reversed;
    found.says = together(found);
    found.partner = partner_of(found, place);
    return found;
}

} // namespace coilward
