#include "diagnosis/coil_temperature.h"

#include <cmath>

namespace coilward {

CoilTemperature coil_temperature(const Evidence& evidence, const CoilPrior& prior) {
    constexpr auto k = static_cast<Eigen::Index>(Unknown::temperature);
    if (evidence.temperatures.empty())
        return {at(prior.mean, Unknown::temperature), 1.0 / std::sqrt(prior.precision(k, k))};
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
