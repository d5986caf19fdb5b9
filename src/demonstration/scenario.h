#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"
#include "reading/quantity.h"

#include <string>
#include <vector>

namespace coilward {

/// One invented pickup: what its owner says, and what is true of its coil.
struct InventedPickup {
    std::string name;
    std::string instrument;
    std::string coil_model;
    std::string complaint;
    std::string stage;
    bool rewound = false;
    Coil coil;
    FaultElement fault;
    Polarity polarity = Polarity::as_expected;
};

/// The three pickups of the demonstration: broken at the finish lead, 3 % of the turns shorted, and a rewind
/// that is sound. None of them exists.
std::vector<InventedPickup> invented_pickups();

} // namespace coilward
