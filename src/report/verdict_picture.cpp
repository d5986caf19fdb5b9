#include "report/verdict_picture.h"

#include "report/svg.h"
#include "report/verdict_words.h"
#include "report/winding_section.h"
#include "units/engineering.h"

#include <algorithm>

namespace coilward {
namespace {

// All lengths in pixels of a picture that is as wide as a page of text.
constexpr double width = 760.0;
constexpr double margin = 24.0;
constexpr double row = 22.0;
constexpr double band_left = 430.0;
constexpr double band_width = 160.0;

constexpr std::string_view ink = "#222";
constexpr std::string_view quiet = "#777";
constexpr std::string_view healthy = "#c9dccb";
constexpr std::string_view mark = "#b5532a";

/// Draws from the top down.
class Drawing {
public:
    void down(double by) { y_ += by; }

    void text(double x, std::string_view words, std::string_view colour = ink, int size = 13,
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
    Svg svg_{width, 0.0};
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
    drawing.text(band_left - 16.0, engineering(c.measured, unit_name), ink, 13, "end");
    drawing.box(place(c.expected.low), place(c.expected.high) - place(c.expected.low), 12.0, healthy);
    const double low = place(c.measured - 2.0 * c.standard_uncertainty);
    const double high = place(c.measured + 2.0 * c.standard_uncertainty);
    drawing.box(low, high - low, 3.0, mark);
    if (c.measured < left || c.measured > left + span)
        drawing.text(place(c.measured), c.measured < left ? "◀" : "▶", mark, 13, "middle");
    else
        drawing.dot(place(c.measured), mark);
    drawing.text(band_left + band_width + 16.0, engineering_range(c.expected.low, c.expected.high, unit_name),
                 quiet);
    drawing.down(row);
}

void draw_probability(Drawing& drawing, const FaultProbability& fault, const Rules& rules) {
    drawing.text(margin, title_of(fault.fault, rules));
    drawing.text(band_left - 16.0, percent(fault.probability), ink, 13, "end");
    drawing.box(band_left, (width - margin - band_left) * fault.probability, 10.0, quiet);
    drawing.down(row);
}

} // namespace

std::string verdict_picture(const Diagnosis& d, const Rules& rules) {
    Drawing drawing;
    drawing.down(8.0);
    drawing.text(margin, verdict_headline(d, rules), ink, 18);
    drawing.down(row);
    for (const Estimate& estimate : d.verdict.estimates) {
        drawing.text(margin, estimate_in_words(estimate), quiet);
        drawing.down(row);
    }
    if (d.place) {
        drawing.down(-0.5 * row);
        drawing.section(*d.place);
        drawing.down(0.5 * row);
        drawing.text(margin, place_in_words(*d.place), quiet);
        drawing.down(row);
    }
    drawing.down(8.0);
    drawing.text(margin, "Readings, on what healthy coils of this model measure", quiet);
    drawing.down(row);
    for (const Comparison& comparison : d.comparisons)
        draw_comparison(drawing, comparison);
    drawing.down(8.0);
    drawing.text(margin, "How likely", quiet);
    drawing.down(row);
    for (const FaultProbability& fault : d.faults)
        if (fault.probability >= least_probability_shown) draw_probability(drawing, fault, rules);
    drawing.down(-row);
    return drawing.finished();
}

} // namespace coilward
