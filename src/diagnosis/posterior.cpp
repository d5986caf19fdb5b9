#include "diagnosis/posterior.h"

#include "diagnosis/another_model.h"
#include "diagnosis/kick.h"
#include "diagnosis/log_sum.h"
#include "diagnosis/long_tails.h"
#include "diagnosis/search_start.h"
#include "diagnosis/unlisted.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <functional>
#include <numeric>

namespace coilward {
namespace {

// Components this far (in nats) below the best can no longer move a probability that anyone reads.
constexpr double hopeless_nats = 12.0;
// Components this far below the heaviest are not kept for estimates and forecasts, and their neighbours,
// which are lighter still, are not asked.
constexpr double kept_nats = 6.0;
// Where some fault explains the readings by so much better than what is in no list, others are sought with
// less patience: this far below what matters (nats), a search that is stuck is given up.
constexpr double explained_nats = 6.0;
constexpr double reach_of_stuck_where_explained = 60.0;

/// What a fault file states outright: how the kick test and the steadiness of readings go with the fault,
/// with severities under which the kick test is as likely as it can be.
double log_evidence_of_signs(const Fault& fault, const Evidence& evidence) {
    double sum = 0.0;
    for (const Polarity polarity : evidence.polarities)
        sum += std::log(greatest_chance_of_kick(polarity, fault));
    if (evidence.any_unstable)
        sum += std::log(fault.unstable_chance);
    else if (evidence.any_steady)
        sum += std::log1p(-fault.unstable_chance);
    return sum;
}

/// What the kick test takes from that with these severities.
double log_share_of_kicks(const Fault& fault, const Evidence& evidence, const Values& values) {
    if (!fault.kick_read_across_ohm) return 0.0;
    const PolarityChances chances = kick_chances(fault, values);
    double sum = 0.0;
    for (const Polarity polarity : evidence.polarities)
        sum += std::log(chance_of(polarity, chances) / greatest_chance_of_kick(polarity, fault));
    return sum;
}

/// Sums a fault's components without looking at all of them: roams for the places where the readings pull the
/// severities, and from there spreads to neighbouring components while they carry weight.
class Weighing {
public:
    Weighing(const Fault& fault, const CoilPrior& prior, const Evidence& evidence, double base)
        : hypothesis_(hypothesis_of(fault, prior)), prior_(prior), evidence_(evidence), base_(base),
          seen_(component_count(hypothesis_), false), result_{.fault = &fault} {}

    void roam_from(double best, bool explained) {
        best_ = best;
        patience_ = {.hopeless = best - hopeless_nats - base_};
        if (explained) patience_.reach_of_stuck = reach_of_stuck_where_explained;
        places_ = places();
    }

    /// Its number of components.
    std::size_t size() const { return seen_.size(); }

    /// The weight that the best place found promises.
    double promise() const { return places_.empty() ? never : base_ + places_.front().log_evidence; }

    FaultPosterior run(double best) {
        best_ = best;
        for (const WideMode& place : places_)
            enqueue(nearest_component(hypothesis_, place.values), place.values);
        while (!waiting_.empty()) {
            const Waiting next = waiting_.front();
            waiting_.pop_front();
            weigh(next);
        }
        return std::move(result_);
    }

private:
    /// A component to be weighed, and where its search begins.
    struct Waiting {
        std::size_t component = 0;
        Values start{};
    };

    /// Where roaming searches begin: roughly at the mode, by as many ways as lead to different places.
    std::vector<Values> rough_places() const {
        std::vector<Values> starts = beside_resonance(starts_of(hypothesis_), evidence_);
        if (hypothesis_.axes.empty()) return starts;
        const auto near = [&](const Values& one, const Values& other) {
            constexpr double as_good_as_there = 0.2; // of a severity, of the winding, or of its capacitance
            const auto near_in = [&](Unknown unknown) {
                return std::abs(at(one, unknown) - at(other, unknown)) < as_good_as_there;
            };
            return near_in(Unknown::self_capacitance) &&
                   std::ranges::all_of(hypothesis_.axes, near_in, &Axis::unknown);
        };
        std::vector<Values> found;
        for (const Values& start : starts) {
            const auto rough = rough_place(hypothesis_.fault->primitive, hypothesis_.roaming, prior_,
                                           evidence_, start, patience_);
            if (rough &&
                std::ranges::none_of(found, [&](const Values& other) { return near(*rough, other); }))
                found.push_back(*rough);
        }
        return found;
    }

    /// Where roaming searches end, best first; those that were caught far below the best are left out, so
    /// that no component's search begins there.
    std::vector<WideMode> places() const {
        // Between an end and the rest of the winding lies a resonance that a search does not pass, and what
        // was rough about a place may have been on which side of one it is.
        const bool ends_too = may_be_near_resonance(evidence_);
        std::vector<WideMode> found;
        for (const Values& rough : beside_resonance(rough_places(), evidence_))
            for (const Values& start : along_winding(hypothesis_, rough, ends_too))
                if (const auto place = roam(hypothesis_.fault->primitive, hypothesis_.roaming, prior_,
                                            evidence_, start, patience_))
                    found.push_back(*place);
        std::ranges::sort(found, std::greater{}, &WideMode::log_evidence);
        std::erase_if(found, [&](const WideMode& place) {
            return place.log_evidence < found.front().log_evidence - hopeless_nats;
        });
        return found;
    }

    void enqueue(std::size_t component, const Values& start) {
        if (seen_[component]) return;
        seen_[component] = true;
        waiting_.push_back({component, start});
    }

    void weigh(const Waiting& waiting) {
        const Component component = component_at(hypothesis_, waiting.component);
        const double offset = base_ + component.log_weight;
        const double bar = std::max(best_, result_.log_weight) - hopeless_nats - offset;
        const Mode mode =
            find_mode(hypothesis_.fault->primitive, component, prior_, evidence_, waiting.start, bar);
        if (mode.abandoned) return;
        const Values values = values_at(component, mode.unknowns);
        const double log_weight =
            offset + mode.log_evidence + log_share_of_kicks(*hypothesis_.fault, evidence_, values);
        result_.log_weight = log_sum(result_.log_weight, log_weight);
        if (log_weight < result_.log_weight - kept_nats) return;
        for (const std::size_t neighbour : neighbours_of(hypothesis_, waiting.component))
            enqueue(neighbour, values);
        result_.explanations.push_back({component, mode, log_weight});
    }

    Hypothesis hypothesis_;
    const CoilPrior& prior_;
    const Evidence& evidence_;
    double base_;
    double best_ = 0.0; ///< the greatest weight of any fault so far
    Patience patience_; ///< of roaming searches
    std::vector<WideMode> places_;
    std::vector<bool> seen_;
    std::deque<Waiting> waiting_;
    FaultPosterior result_;
};

/// Heaviest first. An explanation is large: what is sorted are their places, and each is moved once or twice.
void sort_by_weight(std::vector<Explanation>& explanations) {
    std::vector<std::size_t> order(explanations.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, std::greater{}, [&](std::size_t place) { return explanations[place].weight; });
    for (std::size_t place = 0; place < order.size(); ++place) {
        std::size_t from = order[place];
        while (from < place) // it was exchanged to where another came from
            from = order[from];
        if (from != place) std::swap(explanations[place], explanations[from]);
    }
}

/// From logarithms to probabilities; light explanations that were kept while the sum was small are dropped.
Posterior normalised(Posterior weighed) {
    const double whole = log_evidence(weighed);
    for (FaultPosterior& p : weighed) {
        p.probability = std::exp(p.log_weight - whole);
        std::erase_if(p.explanations,
                      [&](const Explanation& e) { return e.weight < p.log_weight - kept_nats; });
        for (Explanation& e : p.explanations)
            e.weight = std::exp(e.weight - whole);
        sort_by_weight(p.explanations);
    }
    std::ranges::stable_sort(weighed, std::greater{}, &FaultPosterior::probability);
    return weighed;
}

/// What is in no list may be one blunder among the readings of a healthy coil, or a healthy coil of another
/// model than the one that was named: each a third of it. Asked only where healthy does not explain all of
/// the readings as well as anything.
void add_mistakes(Posterior& weighed, const Rules& rules, const CoilPrior& prior, const Evidence& evidence,
                  double log_prior_volume, const CoilModel* named) {
    constexpr double as_well_nats = 3.0;
    constexpr std::size_t fewest_answers = 3; // among fewer none is the odd one
    const auto with = [&](Primitive primitive) {
        return std::ranges::find(weighed, primitive,
                                 [](const FaultPosterior& p) { return p.fault->primitive; });
    };
    const auto healthy = with(Primitive::none);
    const auto unlisted = with(Primitive::unlisted);
    if (healthy == weighed.end() || unlisted == weighed.end()) return;
    const double best = std::ranges::max_element(weighed, {}, &FaultPosterior::log_weight)->log_weight;
    std::size_t answers = 0;
    for (const Probe& probe : evidence.probes)
        answers += probe.answers.size();
    if (healthy->log_weight > best - as_well_nats || answers < fewest_answers) return;
    const double base =
        std::log(unlisted->fault->prior) + log_evidence_of_signs(*healthy->fault, evidence) - std::log(3.0);
    const double broad = unlisted->log_weight - std::log(3.0);
    const double hopeless = best - hopeless_nats - base;
    const double blunder =
        base + log_prior_volume + log_evidence_of_one_blunder(prior, evidence, hopeless - log_prior_volume);
    const AnotherModel another =
        named ? healthy_of_another_model(rules, *named, evidence, hopeless) : AnotherModel{};
    const double mistaken_model = base + another.log_evidence;
    unlisted->log_weight = log_sum(log_sum(broad, blunder), mistaken_model);
    if (mistaken_model > std::max(broad, blunder)) unlisted->fits = another.best;
}

} // namespace

double log_evidence(const Posterior& posterior) {
    double whole = never;
    for (const FaultPosterior& p : posterior)
        whole = log_sum(whole, p.log_weight);
    return whole;
}

Posterior posterior(const Rules& rules, const CoilPrior& prior, const Evidence& evidence,
                    const CoilModel* named) {
    const double log_prior_volume = half_log_determinant(prior.precision);
    Posterior weighed;
    double best = never;
    // What is in no list first: it takes no search, and tells which components can't matter.
    for (const Fault& fault : rules.faults) {
        if (fault.primitive != Primitive::unlisted) continue;
        weighed.push_back(
            {.fault = &fault, .log_weight = std::log(fault.prior) + log_evidence_unlisted(prior, evidence)});
        best = std::max(best, weighed.back().log_weight);
    }
    std::vector<Weighing> searches;
    searches.reserve(rules.faults.size());
    for (const Fault& fault : rules.faults)
        if (fault.primitive != Primitive::unlisted)
            searches.emplace_back(fault, prior, evidence,
                                  std::log(fault.prior) + log_evidence_of_signs(fault, evidence) +
                                      log_prior_volume);
    std::vector<Weighing*> order;
    for (Weighing& search : searches)
        order.push_back(&search);
    // The simplest first to roam and the most promising first to run: the others are given up the sooner.
    std::ranges::stable_sort(order, std::less{}, &Weighing::size);
    double promised = best;
    for (Weighing* search : order) {
        search->roam_from(promised, promised > best + explained_nats);
        promised = std::max(promised, search->promise());
    }
    std::ranges::stable_sort(order, std::greater{}, &Weighing::promise);
    for (Weighing* search : order) {
        weighed.push_back(search->run(best));
        best = std::max(best, weighed.back().log_weight);
    }
    follow_long_tails(weighed, prior, evidence);
    add_mistakes(weighed, rules, prior, evidence, log_prior_volume, named);
    return normalised(std::move(weighed));
}

} // namespace coilward
