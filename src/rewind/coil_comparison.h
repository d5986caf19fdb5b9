#pragma once

#include "rewind/confirmation.h"

#include <optional>
#include <string>
#include <vector>

namespace coilward {

/// One coil as a visit found it.
struct ComparedCoil {
    std::string title; ///< "Neck (2026-03-02, as received)"
    std::string coil;  ///< its name in the pickup; empty for the only one
    Pickup pickup;
    Visit visit;
    std::vector<StoredReading> readings; ///< the visit's current ones
};

/// One quantity of one of the coils, at 20 °C where it follows the copper.
struct ComparedValue {
    std::optional<Uncertain> value; ///< absent where it was not read, or cannot be used
    std::string says;               ///< how it was corrected, or why there is no value
};

/// The second less the first, in the SI unit of the quantity. Uncertainties with the correlation (JCGM
/// 100:2008, equation 16).
struct ComparedPair {
    std::size_t first = 0; ///< places among the coils
    std::size_t second = 0;
    Uncertain difference;           ///< second − first
    double ratio = 1.0;             ///< second / first
    double ratio_uncertainty = 0.0; ///< standard
    double deviations = 0.0;        ///< |difference| over its standard uncertainty
    bool significant = false;       ///< more than chance explains
};

/// One quantity of two coils or visits, beside each other.
struct ComparedQuantity {
    Reading question;                  ///< quantity, frequency and circuit
    std::vector<ComparedValue> values; ///< one a coil
    std::vector<ComparedPair> pairs;   ///< of those that have a value
};

/// How well two coils wound and magnetised against each other cancel a hum from afar.
struct HumCancelling {
    Uncertain turns_ratio;    ///< second / first, from L, which goes with turns², of one construction
    std::string turns_from;   ///< "inductance at 1 kHz", "DC resistance at 20 °C, of the same wire"
    Uncertain hum_left;       ///< |N1 − N2| / (N1 + N2): share of the hum that both in phase would pick up
    bool may_be_none = false; ///< a hum left of 0 lies within its uncertainty at 95 %
    std::string polarity;     ///< what the kick test says of the pair
};

/// All that was read of both.
struct CoilComparison {
    std::vector<ComparedCoil> coils;          ///< two or more, in the order given
    std::vector<ComparedQuantity> quantities; ///< in the order of Quantity
    double confidence = 0.95;         ///< that, of coils which are alike, no difference is called significant
    double needed_deviations = 0.0;   ///< for that, shared among all pairs (Bonferroni)
    double correlation = 0.0;         ///< of two readings by the same meter at the same port
    std::optional<HumCancelling> hum; ///< of two coils that were asked for as a pair
};

/// When a difference counts.
struct ComparisonRule {
    double confidence = 0.95; ///< of the whole comparison, as in CoilComparison; above 0, below 1
    /// Two readings of one meter share its calibration: a correlation above 0 makes their difference more
    /// certain. 0 claims nothing (JCGM 100:2008, F.1.2.4). 0 to below 1.
    double same_meter_correlation = 0.0;
    bool hum_cancelling_pair = false; ///< whether to ask that of the first two
    std::vector<BenchReading> bench;  ///< how uncertain a reading is whose meter did not say
};

/// The coil as that visit found it, by its current readings. Throws HistoryError.
ComparedCoil compared_coil(const History&, const Pickup&, const std::string& coil, const Visit&);

/// Compares everything that was read of two coils or more. Throws std::invalid_argument for fewer than two.
CoilComparison compare(std::vector<ComparedCoil>, const ComparisonRule&);

/// "+20.53 ± 0.43 %": by how much the second is more than the first.
std::string per_cent_in_words(const ComparedPair&);

} // namespace coilward
