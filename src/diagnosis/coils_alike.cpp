#include "diagnosis/coils_alike.h"

#include "diagnosis/healthy_mode.h"
#include "diagnosis/log_sum.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <Eigen/Eigenvalues>

namespace coilward {
namespace {

constexpr double all_of_it = std::numeric_limits<double>::infinity();

/// What two related coils do not share, one standard deviation in the unknowns' measures.
using OwnWidths = std::array<double, coil_unknown_count>;

/// Two coils of one spool and one winder's day. Common practice, no published source: counters are good to
/// some tens of turns, wire of one spool to a per cent in resistance, and the tension of the hand to as much.
constexpr OwnWidths twin_own{
    0.005,     // turns
    0.012,     // ohm per turn
    0.015,     // henry per turn²: magnets and poles of one lot
    0.06,      // self-capacitance
    0.08,      // frame capacitance
    0.08,      // eddy share
    0.06,      // eddy time
    all_of_it, // frame insulation
    all_of_it, // temperature
};

/// Coils of one set or of one maker's year, wound for different places. Published: resistances of four sets
/// of two and three (three coils of a low form; three of 5.9 to 6.1 kΩ; a pair of 7.87 and 7.97 kΩ; two of
/// 1963, 5.7 and 6.3 kΩ) scatter by 3.8 % within a set, inductances of the first by 2.2 %, its capacitances
/// by 3 % (tests/diagnosis/coils_alike_test.cpp has them). Eddy currents: estimate, no published source.
constexpr OwnWidths set_own{
    0.010,     // turns
    0.036,     // ohm per turn: the next spool, and a mean turn that is a little longer
    0.020,     // henry per turn²
    0.08,      // self-capacitance: three of one maker are few
    0.12,      // frame capacitance
    0.12,      // eddy share
    0.10,      // eddy time
    all_of_it, // frame insulation
    all_of_it, // temperature
};

/// Two coils of different models share what the winder and the spool bring.
bool is_shared(std::size_t k, bool same_model) {
    const auto unknown = static_cast<Unknown>(k);
    return same_model || unknown == Unknown::turns || unknown == Unknown::ohm_per_turn;
}

/// The part of a coil's covariance that it does not share: in each direction the widths' or, where it is
/// narrower, its own. Directions are those of the covariance in units of the widths.
Matrix own_covariance(const OwnWidths& widths, const Matrix& covariance, bool same_model) {
    // Beside it everything that a healthy coil can vary by is narrow.
    constexpr double nothing_shared = 1e3;
    Vector width(covariance.rows());
    for (std::size_t k = 0; k < coil_unknown_count; ++k) {
        const auto i = static_cast<Eigen::Index>(k);
        width[i] = is_shared(k, same_model) ? widths[k] : all_of_it;
        width[i] = std::min(width[i], nothing_shared * std::sqrt(covariance(i, i)));
    }
    const Vector unit = width.cwiseInverse();
    const Eigen::MatrixXd in_widths = unit.asDiagonal() * covariance * unit.asDiagonal();
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> directions(in_widths);
    const Matrix axes = width.asDiagonal() * directions.eigenvectors();
    return axes * directions.eigenvalues().cwiseMin(1.0).asDiagonal() * axes.transpose();
}

/// Normal distribution of the coil's unknowns, as offsets from the middle of its model.
struct Offset {
    Vector mean;
    Matrix covariance;
};

/// The coil's offset after one of its kin was read.
void learn_from(Offset& coil, const CoilMadeAlike& kin, const OwnWidths& widths) {
    const Matrix shared = coil.covariance - own_covariance(widths, coil.covariance, kin.same_model);
    const Matrix expected = shared + own_covariance(widths, inverse(kin.prior.precision), kin.same_model);

    CoilPrior before = kin.prior;
    before.precision = inverse(expected);
    for (std::size_t k = 0; k < coil_unknown_count; ++k)
        if (is_shared(k, kin.same_model)) before.mean[k] += coil.mean[static_cast<Eigen::Index>(k)];
    const Mode mode = healthy_mode(before, kin.evidence, never);
    if (mode.abandoned) return;
    const Matrix gain = shared * before.precision;
    coil.mean += gain * (mode.unknowns - Vector::Map(before.mean.data(), coil.mean.size()));
    coil.covariance -= gain * (expected - covariance_of(mode)) * gain.transpose();
}

const char* words_for(Kinship kinship) {
    return kinship == Kinship::twin ? "a twin coil" : "a coil of its set";
}

} // namespace

CoilPrior prior_beside(const CoilPrior& of_the_model, const std::vector<CoilMadeAlike>& kin) {
    Offset coil{Vector::Zero(static_cast<Eigen::Index>(coil_unknown_count)), inverse(of_the_model.precision)};
    CoilPrior prior = of_the_model;
    for (const auto& [kinship, widths] :
         {std::pair{Kinship::set, set_own}, std::pair{Kinship::twin, twin_own}})
        for (const CoilMadeAlike& one : kin) {
            if (one.as != kinship) continue;
            if (one.healthy) learn_from(coil, one, widths);
            prior.notes.push_back(one.healthy ? std::string("compared with ") + words_for(kinship)
                                              : std::string(words_for(kinship)) +
                                                    " that is not healthy was not used");
        }
    if (kin.empty()) return prior;
    for (Eigen::Index k = 0; k < coil.mean.size(); ++k)
        prior.mean[static_cast<std::size_t>(k)] += coil.mean[k];
    prior.precision = inverse(coil.covariance);
    return prior;
}

} // namespace coilward
