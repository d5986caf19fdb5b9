#pragma once

#include "bench/meter_session.h"

#include <chrono>
#include <optional>
#include <vector>

namespace coilward {

/// When a reading counts as a kick. All of it our own choice but where a source is given.
struct KickRule {
    std::chrono::milliseconds still{3000};  ///< before the touch: from here the baseline is known
    std::size_t fewest = 5;                 ///< readings in that time: two a second are 6 or 7
    double spreads = 5.0;                   ///< a kick is beyond so many standard deviations at rest...
    double steps = 3.0;                     ///< ...and so many steps of the last digit...
    double volts = 0.3e-3;                  ///< ...and this: a coil of thousands of turns gives some 10 mV
    std::chrono::milliseconds hold{1000};   ///< the steel rests on the pole at least so long
    std::chrono::milliseconds within{5000}; ///< of the baseline, the touch is to come
};

/// What the display did when a piece of plain steel was moved to the pole and held there. The voltage is
/// N dΦ/dt, so that the area of the kick is given by the change of flux, whatever the speed; an integrating
/// meter shows area / window. Pulling the steel away kicks the other way.
struct Kick {
    /// What became of a touch.
    enum class Outcome {
        positive,
        negative,
        none,       ///< nothing came: the coil is dead, or the touch fell between two readings
        too_early,  ///< the display moved before the baseline was known: try again
        both_signs, ///< a bump: towards and away within the time of holding: try again
        too_few,    ///< readings for a baseline: the meter is too slow
    };
    Outcome outcome = Outcome::none; ///< of this touch
    double peak = 0.0; ///< from the baseline, volts; infinite where the display ran out of its range
    /// Chance that the sign is not the scatter's: Φ(|peak| / s) for normal scatter s at rest and both signs
    /// equally likely beforehand. It does not know whether an approach was missed and only the pull seen:
    /// several touches must agree (agreed_polarity).
    double confidence = 0.0;

    /// Whether it told a sign.
    bool is_sign() const { return outcome == Outcome::positive || outcome == Outcome::negative; }
};

/// Watches the DC voltage for one touch. The baseline is the median of the readings at rest. Whether they
/// were at rest is judged by 1.4826 times the median distance from it, which one touch among them does not
/// move and which is the standard deviation for normal scatter (Rousseeuw and Croux, J. Am. Stat. Assoc. 88
/// (1993) 1273). Then s is that or the root mean square distance, whichever is more, and at least one step of
/// the last digit.
class KickWatch {
public:
    /// Begins with the rest before the touch.
    explicit KickWatch(KickRule rule = {}) : rule_(rule) {}

    /// Takes one more reading; those that are no DC voltage are passed over. Gives the outcome as soon as it
    /// is known, and then begins anew.
    std::optional<Kick> offer(const StampedReading&);

    /// True while the steel is to be moved: the baseline is known.
    bool waits_for_the_touch() const { return baseline_.has_value(); }

private:
    struct Sample {
        Moment at;
        double volts;
    };

    struct Baseline {
        Moment known;
        double volts;
        double spread;
        double threshold;
    };

    std::optional<Kick> rest(const Sample&, double step);
    std::optional<Kick> touch(const Sample&);
    double threshold_for(double spread) const;
    Kick sign_of_peak() const;

    KickRule rule_;
    std::vector<Sample> at_rest_;
    double step_ = 0.0;
    std::optional<Baseline> baseline_;
    std::optional<Sample> peak_; ///< from the baseline; the time is that of the first reading of the kick
};

/// The sign in which at least three touches agree and none contradicts; nothing otherwise. A touch without a
/// sign says nothing: at two readings a second one in two falls between them.
std::optional<Kick> agreed_polarity(const std::vector<Kick>&);

} // namespace coilward
