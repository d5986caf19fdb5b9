#pragma once

#include "reading/reading.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

struct CoilPlace;

/// What kick and compass say together. The kick's sign is winding sense times magnet; a compass tells the
/// magnet; hum, a field from afar, has the sign of the winding alone. So a partner that cancels the hum and
/// adds the strings is wound the other way and has the other pole up, which gives it the same kick.
struct PolarityFinding {
    std::optional<Polarity> kick;    ///< empty where it was not read
    std::optional<Polarity> magnet;  ///< likewise, by compass
    std::optional<Polarity> winding; ///< as_expected or reversed: where both the others have a sign
    std::string says;                ///< one sentence
    std::string partner; ///< what a hum-cancelling partner needs; empty where winding is not known
};

/// From the last kick and the last compass reading of one coil; nothing where neither was read. `place` is
/// the coil's in its pickup type, nullptr where it has none.
std::optional<PolarityFinding> polarity_finding(const std::vector<Reading>&, const CoilPlace* place);

} // namespace coilward
