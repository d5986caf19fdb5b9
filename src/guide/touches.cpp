#include "guide/touches.h"

#include "units/engineering.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coilward {
namespace {

constexpr std::size_t most_touches = 8;
constexpr std::size_t enough_without = 3;

std::string outcome_in_words(const Kick& kick) {
    switch (kick.outcome) {
    case Kick::Outcome::positive:
    case Kick::Outcome::negative:
        return fmt::format("a {} kick; take the steel away and wait",
                           kick.outcome == Kick::Outcome::positive ? "positive" : "negative");
    case Kick::Outcome::none:
        return "no kick came";
    case Kick::Outcome::too_early:
        return "the display moved before the touch: keep the steel away until told";
    case Kick::Outcome::both_signs:
        return "towards and away in one: leave the steel on the pole for a second";
    case Kick::Outcome::too_few:
        return "the meter sends too few readings to see a kick";
    }
    return "";
}

std::size_t without_kick(const std::vector<Kick>& touches) {
    return static_cast<std::size_t>(std::ranges::count(touches, Kick::Outcome::none, &Kick::outcome));
}

/// Says when the steel is to be moved.
class Prompt {
public:
    explicit Prompt(Person& person) : person_(person) {}

    void follow(const KickWatch& watch) {
        const bool waits = watch.waits_for_the_touch();
        if (waits && !waited_) person_.hear("now touch the pole with the steel, and leave it there");
        waited_ = waits;
    }

private:
    Person& person_;
    bool waited_ = false;
};

} // namespace

KickTest watch_touches(MeterSession& session, Person& person, std::chrono::milliseconds patience) {
    KickTest test;
    KickWatch watch;
    Prompt prompt(person);
    std::vector<Kick> touches;
    person.hear("keep the steel away from the poles");
    while (touches.size() < most_touches) {
        const SessionEvent event = session.next(patience);
        if (std::holds_alternative<LinkOver>(event))
            return {.raw = test.raw, .trouble = "the meter is gone; check its plug", .link_over = true};
        const auto* stamped = std::get_if<StampedReading>(&event);
        if (!stamped || stamped->reading.quantity != Quantity::dc_voltage) {
            test.trouble = "the meter shows no DC voltage; set it to its lowest range of DC volts";
            return test;
        }
        test.raw.push_back(*stamped);
        if (!person.see(*stamped)) {
            test.trouble = "the kick was not waited for";
            return test;
        }
        const auto kick = watch.offer(*stamped);
        prompt.follow(watch);
        if (!kick) continue;
        person.hear(outcome_in_words(*kick));
        touches.push_back(*kick);
        test.agreed = agreed_polarity(touches);
        if (!test.agreed && without_kick(touches) >= enough_without &&
            std::ranges::none_of(touches, &Kick::is_sign))
            test.agreed = Kick{.outcome = Kick::Outcome::none};
        if (test.agreed) return test;
    }
    test.trouble = "the touches do not agree; touch one pole only, with plain steel, and hold it there";
    return test;
}

std::string kick_in_words(const Kick& kick) {
    if (!kick.is_sign()) return "there was no kick in three touches";
    const std::string peak = std::isfinite(kick.peak)
                                 ? fmt::format("{} in the weakest", engineering(std::abs(kick.peak), "V", 2))
                                 : std::string("beyond the meter's range");
    return fmt::format("the kick was {} in three touches, {}",
                       kick.outcome == Kick::Outcome::positive ? "positive" : "negative", peak);
}

} // namespace coilward
