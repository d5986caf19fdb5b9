#include "diagnosis/healthy_mode.h"

#include "diagnosis/search_start.h"

namespace coilward {

Mode healthy_mode(const CoilPrior& prior, const Evidence& evidence, double hopeless,
                  const std::vector<Values>& starts) {
    const Component healthy{.fixed = prior.mean};
    Mode best{.abandoned = true};
    for (const Values& start : beside_resonance(starts, evidence)) {
        Mode mode = find_mode(Primitive::none, healthy, prior, evidence, start, hopeless);
        if (!mode.abandoned && (best.abandoned || mode.log_evidence > best.log_evidence))
            best = std::move(mode);
    }
    return best;
}

Mode healthy_mode(const CoilPrior& prior, const Evidence& evidence, double hopeless) {
    return healthy_mode(prior, evidence, hopeless, {prior.mean});
}

} // namespace coilward
