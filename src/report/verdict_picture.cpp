#include "report/verdict_picture.h"

#include "report/verdict_words.h"
#include "report/winding_section.h"
#include "units/engineering.h"

#include <algorithm>

#include <fmt/format.h>

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

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else
            safe += c;
    }
    return safe;
}

/// Draws from the top down.
class Drawing {
public:
    void down(double by) { y_ += by; }

    void text(double x, std::string_view words, std::string_view colour = ink, int size = 13,
              std::string_view anchor = "start") {
        body_ += fmt::format(
            "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{}\" fill=\"{}\" text-anchor=\"{}\">{}</text>\n", x,
            y_, size, colour, anchor, escaped(words));
    }

    /// A box whose lower edge stands a little below the line of text.
    void box(double x, double wide, double high, std::string_view colour) {
        body_ +=
            fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\"/>\n",
                        x, y_ - 4.5 - 0.5 * high, wide, high, colour);
    }

    void dot(double x, std::string_view colour) {
        body_ +=
            fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4.5\" fill=\"{}\"/>\n", x, y_ - 4.5, colour);
    }

    void section(const PlaceInWinding& place) {
        body_ += winding_section_svg(place, margin, y_);
        y_ += winding_section_svg_height;
    }

    std::string finished() const {
        return fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
                           "width=\"{0:.0f}\" height=\"{1:.0f}\" font-family=\"sans-serif\">\n"
                           "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{2}</svg>\n",
                           width, y_ + margin, body_);
    }

private:
    double y_ = margin;
    std::string body_;
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
