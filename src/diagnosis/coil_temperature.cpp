#include "diagnosis/coil_temperature.h"

#include <cmath>

namespace coilward {

CoilTemperature coil_temperature(const Evidence& evidence, const CoilPrior& prior) {
    if (evidence.temperatures.empty())
        return {at(prior.mean, Unknown::temperature), deviation_of(prior, Unknown::temperature)};
    double sum = 0.0;
    double weights = 0.0;
    for (const PlainAnswer& answer : evidence.temperatures) {
        const double weight = 1.0 / (answer.deviation * answer.deviation);
        sum += weight * answer.value;
        weights += weight;
    }
    return {sum / weights, 1.0 / std::sqrt(weights)};
}

} // namespace coilward
