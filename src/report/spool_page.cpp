#include "report/spool_page.h"

#include "report/picture_style.h"
#include "report/svg.h"
#include "report/text_block.h"
#include "report/verdict_words.h"
#include "units/engineering.h"
#include "wire/gauge.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coilward {
namespace {

const GaugeCandidate& likeliest(const SpoolCheck& check) {
    return *std::ranges::max_element(check.candidates, {}, &GaugeCandidate::probability);
}

std::string answer(const SpoolCheck& check) {
    const std::string claimed = awg_name(check.claimed_awg) + " AWG";
    const GaugeCandidate& best = likeliest(check);
    switch (check.conformity.decision) {
    case Decision::pass:
        return fmt::format("Yes: it measures as {}", claimed);
    case Decision::fail:
        if (best.probability >= 0.5)
            return fmt::format("No: it measures as {} AWG, not as {}", awg_name(best.awg), claimed);
        return fmt::format("No: it measures as no gauge, and not as {}", claimed);
    case Decision::measure_better:
        break;
    }
    return fmt::format("Undecided, {} for {}: take a longer piece or a better meter",
                       percent(check.conformity.probability_within), claimed);
}

std::string measured(const SpoolCheck& check) {
    return engineering_with_uncertainty(check.ohm_per_metre_20.value,
                                        check.ohm_per_metre_20.standard_uncertainty, "ohm") +
           " per metre at 20 °C";
}

std::string_view basis_in_words(Basis basis) {
    switch (basis) {
    case Basis::published:
        return "published limits";
    case Basis::pattern:
        return "limits by the pattern of the neighbouring sizes";
    case Basis::unverified:
        break;
    }
    return "limits without a source: for orientation only";
}

std::string row(const GaugeCandidate& candidate) {
    const WireLimits& limits = candidate.limits_ohm_per_m;
    return fmt::format("  {} AWG  {}  {:+6.1f} % of nominal  {}  {}\n", awg_name(candidate.awg),
                       padded(engineering_range(limits.minimum, limits.maximum, "ohm", 4), 20),
                       100.0 * (candidate.nominal_ratio - 1.0), padded(percent(candidate.probability), 8),
                       basis_in_words(limits.basis));
}

} // namespace

std::string spool_page(const SpoolCheck& check) {
    std::string page = answer(check) + "\n\n  measured: " + measured(check) + "\n";
    if (check.correlation != 0.0)
        page += fmt::format("  resistance and temperature varied together, correlation {:+.2f}\n",
                            check.correlation);
    page += "\n";
    for (const GaugeCandidate& candidate : check.candidates)
        page += row(candidate);
    return page + fmt::format("  between or beyond these: {}\n", percent(check.none_of_them)) +
           wrapped("Copper that was drawn thinner by the winder's tension measures as a thinner gauge: take "
                   "the piece from "
                   "the spool, not from a coil.",
                   "");
}

std::string spool_picture(const SpoolCheck& check) {
    constexpr double left = 110.0;
    constexpr double right = 730.0;
    constexpr double row_height = 30.0;
    const double low =
        0.95 * std::min(check.candidates.front().limits_ohm_per_m.minimum, check.ohm_per_metre_20.value);
    const double high =
        1.05 * std::max(check.candidates.back().limits_ohm_per_m.maximum, check.ohm_per_metre_20.value);
    const auto x = [&](double ohm_per_m) {
        return left + (right - left) * std::log(ohm_per_m / low) / std::log(high / low);
    };
    const double bottom = 70.0 + row_height * static_cast<double>(check.candidates.size());
    Svg svg(picture::width, bottom + 30.0);
    svg.text(24.0, 28.0, answer(check), picture::ink, 17);
    svg.text(24.0, 48.0, measured(check), picture::quiet);
    double y = 70.0;
    for (const GaugeCandidate& candidate : check.candidates) {
        const WireLimits& limits = candidate.limits_ohm_per_m;
        svg.text(24.0, y + 14.0, awg_name(candidate.awg) + " AWG",
                 candidate.awg == check.claimed_awg ? picture::ink : picture::quiet);
        svg.box(x(limits.minimum), y, x(limits.maximum) - x(limits.minimum), 18.0,
                candidate.awg == check.claimed_awg ? "#c9dccb" : "#e4e4e4");
        svg.line(x(limits.nominal), y, x(limits.nominal), y + 18.0, picture::quiet);
        svg.text(x(limits.maximum) + 6.0, y + 14.0, percent(candidate.probability), picture::quiet, 11);
        y += row_height;
    }
    const double u = check.ohm_per_metre_20.standard_uncertainty;
    const double from = x(std::max(low, check.ohm_per_metre_20.value - 2.0 * u));
    svg.box(from, 64.0, std::max(1.0, x(check.ohm_per_metre_20.value + 2.0 * u) - from), bottom - 64.0,
            fmt::format("{}55", picture::mark));
    svg.line(x(check.ohm_per_metre_20.value), 64.0, x(check.ohm_per_metre_20.value), bottom, picture::mark,
             2.0);
    svg.text(x(check.ohm_per_metre_20.value), bottom + 16.0, "measured", picture::mark, 11, "middle");
    return svg.finished();
}

std::string spool_to_json(const SpoolCheck& check) {
    nlohmann::ordered_json document{{"claimed_awg", check.claimed_awg},
                                    {"answer", answer(check)},
                                    {"decision", name(check.conformity.decision)},
                                    {"ohm_per_metre_20", check.ohm_per_metre_20.value},
                                    {"standard_uncertainty", check.ohm_per_metre_20.standard_uncertainty},
                                    {"correlation", check.correlation},
                                    {"candidates", nlohmann::json::array()},
                                    {"none_of_them", check.none_of_them}};
    for (const GaugeCandidate& candidate : check.candidates)
        document["candidates"].push_back(
            {{"awg", candidate.awg},
             {"limits", {candidate.limits_ohm_per_m.minimum, candidate.limits_ohm_per_m.maximum}},
             {"nominal", candidate.limits_ohm_per_m.nominal},
             {"basis", basis_in_words(candidate.limits_ohm_per_m.basis)},
             {"probability", candidate.probability}});
    return document.dump();
}

} // namespace coilward
