#pragma once

#include "history/history.h"
#include "reading/examination.h"

namespace coilward {

/// What diagnosis needs of one visit: its current readings against the pickup's coil models, and as `earlier`
/// each former visit's readings of those coils that were then judged healthy, decided, and not rewound since.
/// Its id is the visit's. coil_model and coils are empty where the pickup has none. Throws HistoryError.
Examination examination_of(const History&, const Pickup&, const Visit&);

/// Of the pickup's latest visit; nothing where it had none.
std::optional<Examination> latest_examination_of(const History&, const Pickup&);

/// Coils of another pickup as kin of the examined one's: of each coil that both have (by its name, or the
/// only one of each), the newest visit on which it was judged healthy, decided. Empty where there is none.
std::vector<AlikeCoil> alike_coils_of(const History&, const Pickup& other, Kinship, const Pickup& examined);

} // namespace coilward
