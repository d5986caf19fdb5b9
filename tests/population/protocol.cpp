#include "protocol.h"

#include <array>
#include <stdexcept>

namespace population {
namespace {

constexpr std::array<std::string_view, 5> names{"full", "typical", "sparse", "forms", "high"};

/// One connection of the LCR meter and what is read off its display.
struct AcStep {
    double frequency_hz = 1000.0;
    std::string between;
    std::vector<std::pair<std::string, std::string>> shows; ///< quantity, circuit
};

struct Protocol {
    std::vector<AcStep> ac;
    std::vector<std::string> insulation;
    bool kick = true;
};

Protocol protocol_of(std::string_view name) {
    const AcStep start_frame{1000.0, "start-frame", {{"capacitance", ""}}};
    const AcStep finish_frame{1000.0, "finish-frame", {{"capacitance", ""}}};
    if (name == "full")
        return {{{1000.0,
                  "leads",
                  {{"inductance", "series"}, {"ac_resistance", "series"}, {"quality_factor", ""}}},
                 {120.0, "leads", {{"inductance", "series"}}},
                 start_frame,
                 finish_frame},
                {"start-frame", "finish-frame"},
                true};
    if (name == "typical")
        return {{{1000.0, "leads", {{"inductance", "series"}, {"quality_factor", ""}}},
                 start_frame,
                 finish_frame},
                {"start-frame"},
                true};
    if (name == "sparse") return {{{1000.0, "leads", {{"inductance", "series"}}}}, {}, false};
    if (name == "forms")
        return {{{120.0, "leads", {{"impedance_magnitude", ""}, {"phase_angle", ""}}},
                 {1000.0, "leads", {{"inductance", "parallel"}, {"dissipation_factor", ""}}},
                 {1000.0, "start-frame", {{"capacitance", "parallel"}}},
                 {1000.0, "finish-frame", {{"capacitance", "parallel"}}}},
                {"start-frame"},
                true};
    if (name == "high")
        return {{{1000.0, "leads", {{"inductance", "series"}, {"ac_resistance", "series"}}},
                 {10000.0, "leads", {{"inductance", "series"}, {"ac_resistance", "series"}}}},
                {"start-frame"},
                true};
    throw std::invalid_argument("no protocol is called " + std::string(name));
}

/// The coil on the bench, which may wander between readings.
class Bench {
public:
    Bench(const Coil& coil, const Ailment& ailment, double temperature_c)
        : coil_(coil), ailment_(ailment), temperature_c_(temperature_c), steady_(circuit_at(0.0)) {}

    Seen look(const std::string& between, double frequency_hz, Random& random) const {
        if (ailment_.flutter == 0.0) {
            const std::complex<double> impedance = impedance_of(steady_, between, frequency_hz);
            return {impedance, impedance, impedance, false};
        }
        const auto at = [&](double wander) {
            return impedance_of(circuit_at(wander), between, frequency_hz);
        };
        return {at(random.uniform(-1.0, 1.0)), at(-1.0), at(1.0), true};
    }

private:
    Circuit circuit_at(double wander) const {
        Damage damage = ailment_.damage;
        if (damage.broken) damage.broken->ohm *= 1.0 + wander * ailment_.flutter;
        return circuit_of(coil_, damage, temperature_c_);
    }

    static std::complex<double> impedance_of(const Circuit& circuit, const std::string& between, double hz) {
        if (between == "start-frame")
            return impedance_between(circuit.network, circuit.start, circuit.frame, hz);
        if (between == "finish-frame")
            return impedance_between(circuit.network, circuit.finish, circuit.frame, hz);
        return impedance_between(circuit.network, circuit.start, circuit.finish, hz);
    }

    const Coil& coil_;
    const Ailment& ailment_;
    double temperature_c_;
    Circuit steady_;
};

ReadingJson kick(const KickChances& chances, Random& random) {
    const double draw = random.uniform();
    const char* answer = draw < chances.reversed                  ? "reversed"
                         : draw < chances.reversed + chances.none ? "none"
                                                                  : "as_expected";
    return {{"quantity", "polarity"}, {"value", answer}};
}

} // namespace

std::span<const std::string_view> protocol_names() {
    return names;
}

std::vector<ReadingJson> examine(const Coil& coil, const Ailment& ailment, const Instruments& instruments,
                                 double temperature_c, std::string_view protocol, Random& random) {
    const Protocol steps = protocol_of(protocol);
    const Bench bench(coil, ailment, temperature_c);
    std::vector<ReadingJson> readings{
        read_temperature(instruments, temperature_c, random),
        read_dc_resistance(instruments, bench.look("leads", 0.0, random), random)};
    for (const AcStep& step : steps.ac) {
        const Seen seen = bench.look(step.between, step.frequency_hz, random);
        const LcrMeasurement measurement(instruments, seen, random);
        for (const auto& [quantity, circuit] : step.shows) {
            auto reading = measurement.read({quantity, step.between, circuit, step.frequency_hz}, random);
            if (reading) readings.push_back(*std::move(reading));
        }
    }
    for (const std::string& between : steps.insulation)
        readings.push_back(read_insulation(instruments, between, bench.look(between, 0.0, random), random));
    if (steps.kick) readings.push_back(kick(ailment.kick, random));
    return readings;
}

} // namespace population
