#pragma once

#include "history/history.h"
#include "reading/examination.h"

#include <cstdint>
#include <string>
#include <vector>

namespace coilward {

/// How it is known that two pickups' coils were made alike.
enum class KnownBy {
    person,     ///< somebody says so
    instrument, ///< both are in one instrument of one owner
};

/// A coil of another pickup, beside which one of the examined pickup's is held.
struct Kin {
    AlikeCoil coil; ///< with what was read of it when it was sound
    KnownBy known_by = KnownBy::person;
    std::int64_t number = 0; ///< the other pickup's
    std::string pickup;      ///< its name
    Moment at{};             ///< of the visit on which it was judged sound
};

/// What a person says to be kin: of each coil that both pickups have (by its name, or the only one of each),
/// the newest visit on which the other's was judged healthy, decided. Readings of a coil that was handled are
/// left out. Empty where there is none. Throws HistoryError.
std::vector<Kin> kin_of(const History&, const Pickup& other, Kinship, const Pickup& examined);

/// What the history itself takes for one set: the coils of other pickups that name the same owner and the
/// same instrument, letter for letter and neither empty, by the same name and of the same coil model. A set
/// is known by the windings that it came with, so there is none for a visit of a winding that was made anew,
/// and of the others only visits before theirs was; earlier or later than the visit that is judged makes no
/// difference, since it tells how they were made. By the pickups' numbers. Throws HistoryError.
std::vector<Kin> kin_by_instrument(const History&, const Pickup& examined, const Visit&);

/// Puts the coils among those that the examination is held beside.
void hold_beside(Examination&, const std::vector<Kin>&);

/// "held beside Neck (pickup 2), of the same owner and instrument, as it was judged sound on 2026-03-02;
/// judge it alone if the two were not made as a set", or who else says that they are kin.
std::string in_words(const Kin&);

} // namespace coilward
