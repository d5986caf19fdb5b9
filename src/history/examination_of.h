#pragma once

#include "history/history.h"
#include "reading/examination.h"

namespace coilward {

/// What diagnosis needs of one visit: its current readings against the pickup's coil models, and as `earlier`
/// each former visit's readings of those coils that were then judged healthy, decided, and not rewound since.
/// Its id is the visit's. coil_model and coils are empty where the pickup has none. Throws HistoryError.
Examination examination_of(const History&, const Pickup&, const Visit&);

} // namespace coilward
