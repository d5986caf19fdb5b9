#pragma once

#include "coil/coil.h"
#include "coil/fault_element.h"
#include "reading/quantity.h"

#include <string>
#include <vector>

namespace coilward {

/// One invented pickup: what its owner says, and what is true of its coil.
struct InventedPickup {
    std::string name;                          ///< of its label
    std::string instrument;                    ///< that it is out of
    std::string coil_model;                    ///< id of one that ships
    std::string complaint;                     ///< the owner's words
    std::string stage;                         ///< of the visit
    bool rewound = false;                      ///< the winding is new
    Coil coil;                                 ///< what is true of it
    FaultElement fault;                        ///< NoFault for the sound one
    Polarity polarity = Polarity::as_expected; ///< what a kick test finds
};

/// The three pickups of the demonstration: broken at the finish lead, 3 % of the turns shorted, and a rewind
/// that is sound. None of them exists.
std::vector<InventedPickup> invented_pickups();

} // namespace coilward
