#include "history/correction.h"

#include <cmath>

namespace coilward {
namespace {

void take_value(Reading& reading, double value) {
    if (unit(reading.quantity).empty())
        throw NoCorrection("a polarity has no number; take the reading again");
    if (!std::isfinite(value)) throw NoCorrection("a reading is a finite number; say what it should be");
    reading.value = value;
    reading.state = State::ok;
    reading.limit.reset();
    reading.spread.reset();
}

} // namespace

StoredReading correction_of(const StoredReading& wrong, const Correction& correction, Moment at) {
    if (correction.why.find_first_not_of(" \t\r\n") == std::string::npos)
        throw NoCorrection("say why it was wrong");
    StoredReading right = wrong;
    right.id = random_id();
    right.at = at;
    right.meter.clear();
    right.port.clear();
    right.raw.clear();
    right.corrects = wrong.id;
    right.remark = correction.why;
    if (correction.value) take_value(right.reading, *correction.value);
    if (correction.standard_uncertainty) right.reading.standard_uncertainty = correction.standard_uncertainty;
    if (correction.coil) right.reading.coil = *correction.coil;
    if (right.reading == wrong.reading)
        throw NoCorrection("nothing to correct; say for example --value 6.12k");
    return right;
}

} // namespace coilward
