#include "faults.h"

#include <array>
#include <stdexcept>

namespace population {
namespace {

constexpr std::array<std::string_view, 9> ids{"healthy",    "open",      "shorted-turns", "partial-break",
                                              "frame-leak", "turns-off", "wrong-wire",    "reversed-polarity",
                                              "still-wired"};

constexpr double open_gap_ohm = 1e12; // dry air and fibre: no direct current worth the name

/// Anywhere along the wire, but every fourth at one of the two lead joints.
double draw_break_place(Random& random) {
    if (random.chance(0.25)) return random.chance(0.5) ? 0.0 : 1.0;
    return random.uniform();
}

Ailment open(Random& random) {
    Ailment ailment;
    const double place = draw_break_place(random);
    ailment.damage.broken = Break{place, open_gap_ohm, random.log_uniform(1e-12, 30e-12)};
    ailment.kick = {0.005, 0.90};
    ailment.severities = {{"break_position", place}};
    return ailment;
}

Ailment partial_break(Random& random) {
    Ailment ailment;
    const double place = draw_break_place(random);
    const double ohm = random.log_uniform(200.0, 35e6);
    ailment.damage.broken = Break{place, ohm, random.log_uniform(1e-12, 50e-12)};
    if (random.chance(0.3)) ailment.flutter = random.log_uniform(0.005, 0.3);
    // A kick is read on a voltmeter of about 10 Mohm, shunted by its lead's capacitance.
    ailment.kick.none = 0.005 + 0.8 * ohm / (ohm + 5e6);
    ailment.severities = {{"break_position", place}, {"series_resistance", ohm}};
    return ailment;
}

Ailment frame_leak(Random& random) {
    Ailment ailment;
    const double place = random.uniform();
    const double ohm = random.log_uniform(100.0, 15e6);
    ailment.damage.leak = FrameLeak{place, ohm};
    ailment.severities = {{"leak_position", place}, {"leak_resistance", ohm}};
    return ailment;
}

Ailment turns_off(Random& random) {
    Ailment ailment;
    ailment.damage.turns_factor =
        random.chance(0.5) ? random.uniform(0.65, 0.93) : random.uniform(1.07, 1.35);
    ailment.severities = {{"turns_factor", ailment.damage.turns_factor}};
    return ailment;
}

Ailment wrong_wire(Random& random) {
    constexpr double gauge_step = 1.26; // area ratio of neighbouring gauges: 92^(2/39)
    Ailment ailment;
    const double factor = random.chance(0.5) ? gauge_step : 1.0 / gauge_step;
    ailment.damage.resistance_factor = random.log_normal(factor, 0.03);
    ailment.severities = {{"resistance_factor", ailment.damage.resistance_factor}};
    return ailment;
}

Ailment reversed_polarity() {
    Ailment ailment;
    ailment.kick = {0.983, 0.005};
    return ailment;
}

Ailment still_wired(Random& random) {
    Ailment ailment;
    Controls controls;
    const auto draw_track = [&] { return (random.chance(0.5) ? 250e3 : 500e3) * random.uniform(0.8, 1.2); };
    controls.volume_ohm = draw_track();
    controls.cable_farad = random.uniform(0.0, 700e-12);
    if (random.chance(0.5)) {
        controls.tone_ohm = draw_track();
        controls.tone_farad = random.chance(0.5) ? 22e-9 : 47e-9;
    }
    ailment.damage.controls = controls;
    ailment.severities = {{"load_resistance", controls.volume_ohm}};
    return ailment;
}

} // namespace

std::span<const std::string_view> fault_ids() {
    return ids;
}

double chance_of(std::string_view fault, Mix mix) {
    for (const std::string_view id : ids) {
        if (id != fault) continue;
        if (mix == Mix::even) return 1.0 / static_cast<double>(ids.size());
        return id == ids.front() ? 0.4 : 0.6 / static_cast<double>(ids.size() - 1);
    }
    return 0.0;
}

std::string_view draw_fault(Mix mix, Random& random) {
    if (mix == Mix::even) return ids[random.below(ids.size())];
    if (random.chance(0.4)) return ids.front();
    return ids[1 + random.below(ids.size() - 1)];
}

Ailment shorted_turns(double fraction, Random& random) {
    Ailment ailment;
    const double from = random.uniform(0.0, 1.0 - fraction);
    const double contact_ohm = random.log_uniform(0.1, 300.0);
    ailment.damage.shorted = Short{from, from + fraction, contact_ohm};
    ailment.severities = {
        {"shorted_fraction", fraction}, {"short_place", from}, {"contact_resistance", contact_ohm}};
    return ailment;
}

Ailment draw_ailment(std::string_view fault, Random& random) {
    if (fault == "healthy") return {};
    if (fault == "open") return open(random);
    if (fault == "shorted-turns") return shorted_turns(random.log_uniform(0.005, 0.3), random);
    if (fault == "partial-break") return partial_break(random);
    if (fault == "frame-leak") return frame_leak(random);
    if (fault == "turns-off") return turns_off(random);
    if (fault == "wrong-wire") return wrong_wire(random);
    if (fault == "reversed-polarity") return reversed_polarity();
    if (fault == "still-wired") return still_wired(random);
    throw std::invalid_argument("no fault is called " + std::string(fault));
}

} // namespace population
