#include "rules/joint_element.h"

namespace coilward {

Primitive primitive_of(JointChange change) {
    switch (change) {
    case JointChange::open:
        return Primitive::series_element;
    case JointChange::load:
        return Primitive::load;
    default:
        return Primitive::none;
    }
}

} // namespace coilward
