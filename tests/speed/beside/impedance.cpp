// One coil's impedance over frequency, by coil/impedance.h and by ngspice's AC analysis of the same circuit.

#include "coil/impedance.h"

#include "beside/cpu_time.h"
#include "beside/row.h"
#include "coil/ngspice.h"
#include "coil/ordinary_coil.h"

#include <cmath>
#include <complex>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>
#include <unistd.h>

namespace coilward {
namespace {

constexpr double lowest_hz = 20.0;
constexpr double highest_hz = 20000.0;

// One turn in a hundred shorted.
const FaultElement fault = Bridge{.share = 0.01, .resistance_ohm = 1.0, .leakage = 0.05};

std::vector<double> frequencies(int points) {
    std::vector<double> all;
    for (int n = 0; n < points; ++n)
        all.push_back(lowest_hz + (highest_hz - lowest_hz) * n / (points - 1));
    return all;
}

std::vector<std::complex<double>> our_sweep(const std::vector<double>& frequencies_hz) {
    std::vector<std::complex<double>> impedances;
    for (const double frequency : frequencies_hz)
        impedances.push_back(impedance(test::ordinary_coil, fault, CoilPort::leads, frequency));
    return impedances;
}

struct Sweep {
    double seconds = 0.0;
    std::vector<std::complex<double>> impedances;
};

/// One run of the whole program: the netlist read, all points in one analysis, the numbers written to a file.
Sweep ngspice_sweep(int points) {
    const auto folder = std::filesystem::temp_directory_path();
    const auto circuit = folder / fmt::format("coilward-sweep-{}.cir", ::getpid());
    const auto numbers = folder / fmt::format("coilward-sweep-{}.data", ::getpid());
    std::ofstream(circuit) << test::circuit_cards(test::ordinary_coil, fault, CoilPort::leads)
                           << fmt::format(".options rshunt=1e18 gmin=1e-20\n.control\nset numdgt=14\n"
                                          "ac lin {} {} {}\nwrdata {} v(s)\nquit\n.endc\n.end\n",
                                          points, lowest_hz, highest_hz, numbers.string());
    const double before = cpu_seconds(RUSAGE_CHILDREN);
    if (std::system(fmt::format("ngspice -b '{}' >/dev/null 2>&1", circuit.string()).c_str()) != 0)
        throw std::runtime_error("ngspice failed; it is the Debian package ngspice");
    Sweep sweep{.seconds = cpu_seconds(RUSAGE_CHILDREN) - before};
    std::ifstream read(numbers);
    for (double frequency = 0.0, real = 0.0, imaginary = 0.0; read >> frequency >> real >> imaginary;)
        sweep.impedances.emplace_back(real, imaginary);
    std::filesystem::remove(circuit);
    std::filesystem::remove(numbers);
    return sweep;
}

double greatest_difference(const std::vector<std::complex<double>>& ours,
                           const std::vector<std::complex<double>>& theirs) {
    if (ours.size() != theirs.size())
        throw std::runtime_error(fmt::format("ngspice gave {} of {} points", theirs.size(), ours.size()));
    double greatest = 0.0;
    for (std::size_t n = 0; n < ours.size(); ++n)
        greatest = std::max(greatest, std::abs(ours[n] - theirs[n]) / std::abs(theirs[n]));
    return greatest;
}

} // namespace

std::vector<Row> rows_of_impedance() {
    constexpr int few = 100;
    constexpr int many = 100'100;
    const auto few_hz = frequencies(few);
    const auto many_hz = frequencies(many);
    Sweep theirs;
    Sweep long_one;
    const auto seconds_of_ngspice = [](Sweep& sweep, int points) {
        sweep = ngspice_sweep(points);
        return sweep.seconds;
    };
    const SecondsBeside short_seconds =
        least_beside(timed([&] { our_sweep(few_hz); }), [&] { return seconds_of_ngspice(theirs, few); });
    const SecondsBeside long_seconds =
        least_beside(timed([&] { our_sweep(many_hz); }), [&] { return seconds_of_ngspice(long_one, many); });
    const auto agreement = [](double difference) {
        return fmt::format("largest difference {:.1e} of the impedance", difference);
    };
    return {{.work = "one coil with a fault, a sweep of 100 points",
             .beside = "ngspice, one run",
             .our_seconds = short_seconds.ours,
             .their_seconds = short_seconds.theirs,
             .least_ratio = 1000.0,
             .agreement = agreement(greatest_difference(our_sweep(few_hz), theirs.impedances))},
            {.work = "100,000 points more of the same sweep",
             .beside = "ngspice, what the longer run takes longer",
             .our_seconds = long_seconds.ours - short_seconds.ours,
             .their_seconds = long_seconds.theirs - short_seconds.theirs,
             .agreement = agreement(greatest_difference(our_sweep(many_hz), long_one.impedances))}};
}

} // namespace coilward
