#include "report/verdict_picture.h"

#include "report/picture_style.h"
#include "report/svg.h"
#include "report/verdict_words.h"
#include "report/winding_section.h"
#include "units/engineering.h"

#include <algorithm>

#include <fmt/format.h>

namespace coilward {
namespace {

// All lengths in pixels of a picture that is as wide as a page of text.
constexpr double margin = 24.0;
constexpr double row_height = 22.0;
constexpr double band_left = 430.0;
constexpr double band_width = 160.0;

constexpr std::string_view healthy = "#c9dccb";

/// Draws from the top down.
class Drawing {
public:
    void down(double by) { y_ += by; }

    void text(double x, std::string_view words, std::string_view colour = picture::ink, int size = 13,
              std::string_view anchor = "start") {
        svg_.text(x, y_, words, colour, size, anchor);
    }

    /// A box whose middle stands at that of the line of text.
    void box(double x, double wide, double high, std::string_view colour) {
        svg_.box(x, y_ - middle - 0.5 * high, wide, high, colour);
    }

    void dot(double x, std::string_view colour) { svg_.dot(x, y_ - middle, 4.5, colour); }

    void section(const PlaceInWinding& place) {
        svg_.add(winding_section_svg(place, margin, y_));
        y_ += winding_section_svg_height;
    }

    std::string finished() {
        svg_.set_height(y_ + margin);
        return svg_.finished();
    }

private:
    static constexpr double middle = 4.5; // of a line of text, above its foot

    double y_ = margin;
    Svg svg_{picture::width, 0.0};
};

/// The expected range as the middle half of the band; a reading beyond the picture is an arrow at its edge.
void draw_comparison(Drawing& drawing, const Comparison& c) {
    const std::string_view unit_name = unit(c.reading.quantity);
    const double span = 2.0 * (c.expected.high - c.expected.low);
    const double left = 0.5 * (c.expected.low + c.expected.high - span);
    const auto place = [&](double value) {
        return band_left + band_width * std::clamp((value - left) / span, 0.0, 1.0);
    };
    drawing.text(margin, describe(c.reading));
    drawing.text(band_left - 16.0, engineering(c.measured, unit_name), picture::ink, 13, "end");
    drawing.box(place(c.expected.low), place(c.expected.high) - place(c.expected.low), 12.0, healthy);
    const double low = place(c.measured - 2.0 * c.standard_uncertainty);
    const double high = place(c.measured + 2.0 * c.standard_uncertainty);
    drawing.box(low, high - low, 3.0, picture::mark);
    if (c.measured < left || c.measured > left + span)
        drawing.text(place(c.measured), c.measured < left ? "◀" : "▶", picture::mark, 13, "middle");
    else
        drawing.dot(place(c.measured), picture::mark);
    drawing.text(band_left + band_width + 16.0, engineering_range(c.expected.low, c.expected.high, unit_name),
                 picture::quiet);
    drawing.down(row_height);
}

void draw_probability(Drawing& drawing, const FaultProbability& fault, const TitleOf& title_of_fault) {
    drawing.text(margin, title_of_fault(fault.fault));
    drawing.text(band_left - 16.0, percent(fault.probability), picture::ink, 13, "end");
    drawing.box(band_left, (picture::width - margin - band_left) * fault.probability, 10.0, picture::quiet);
    drawing.down(row_height);
}

void draw_line(Drawing& drawing, std::string_view words) {
    drawing.text(margin, words, picture::quiet);
    drawing.down(row_height);
}

void draw_section(Drawing& drawing, const PlaceInWinding& place) {
    drawing.down(-0.5 * row_height);
    drawing.section(place);
    drawing.down(0.5 * row_height);
}

void draw_estimates(Drawing& drawing, const Diagnosis& d) {
    for (const Estimate& estimate : d.verdict.estimates)
        draw_line(drawing, estimate_in_words(estimate));
    for (const std::string& line : in_words(d.in_turns))
        draw_line(drawing, line);
    if (!d.polarity) return;
    draw_line(drawing, d.polarity->says);
    if (!d.polarity->partner.empty()) draw_line(drawing, d.polarity->partner);
}

void draw_evidence(Drawing& drawing, const Diagnosis& d, const TitleOf& title_of_fault) {
    drawing.down(8.0);
    draw_line(drawing, "Readings, on what healthy coils of this model measure");
    for (const Comparison& comparison : d.comparisons)
        draw_comparison(drawing, comparison);
    drawing.down(8.0);
    draw_line(drawing, "How likely");
    for (const FaultProbability& fault : d.faults)
        if (fault.probability >= least_probability_shown) draw_probability(drawing, fault, title_of_fault);
}

void draw_coil(Drawing& drawing, const std::string& name, const Diagnosis& d, const Rules& rules) {
    drawing.down(row_height);
    const TitleOf titles = titles_of_faults(rules);
    drawing.text(margin, fmt::format("{} ({}): {}", name, d.coil_model, verdict_headline(d, titles)),
                 picture::ink, 15);
    drawing.down(row_height);
    draw_estimates(drawing, d);
    draw_section(drawing, d.place.value_or(PlaceInWinding{}));
    if (d.place) draw_line(drawing, place_in_words(*d.place));
    draw_evidence(drawing, d, titles);
}

} // namespace

std::string verdict_picture(const Diagnosis& d, const Rules& rules) {
    const TitleOf titles = titles_of_faults(rules);
    Drawing drawing;
    drawing.down(8.0);
    drawing.text(margin, verdict_headline(d, titles), picture::ink, 18);
    drawing.down(row_height);
    draw_estimates(drawing, d);
    if (d.place) {
        draw_section(drawing, *d.place);
        draw_line(drawing, place_in_words(*d.place));
    }
    draw_evidence(drawing, d, titles);
    drawing.down(-row_height);
    return drawing.finished();
}

std::string verdict_picture(const PickupDiagnosis& pickup, const Rules& rules) {
    Drawing drawing;
    drawing.down(8.0);
    drawing.text(margin, pickup_headline(pickup, rules), picture::ink, 18);
    drawing.down(0.5 * row_height);
    for (const auto& [name, diagnosis] : pickup.coils)
        draw_coil(drawing, name, diagnosis, rules);
    drawing.down(row_height);
    const TitleOf titles = titles_of_joints(rules, pickup.pickup_type);
    drawing.text(margin, "the whole: " + verdict_headline(pickup.whole, titles), picture::ink, 15);
    drawing.down(row_height);
    draw_evidence(drawing, pickup.whole, titles);
    drawing.down(-row_height);
    return drawing.finished();
}

} // namespace coilward
