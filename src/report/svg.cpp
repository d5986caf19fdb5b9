#include "report/svg.h"

#include "report/markup.h"

#include <fmt/format.h>

namespace coilward {

void Svg::text(double x, double y, std::string_view words, std::string_view colour, int size,
               std::string_view anchor) {
    body_ += fmt::format(
        "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{}\" fill=\"{}\" text-anchor=\"{}\">{}</text>\n", x, y,
        size, colour, anchor, escaped(words));
}

void Svg::line(double x1, double y1, double x2, double y2, std::string_view colour, double width,
               std::string_view dashes) {
    body_ += fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\" "
                         "stroke-width=\"{:.1f}\" stroke-dasharray=\"{}\"/>\n",
                         x1, y1, x2, y2, colour, width, dashes);
}

void Svg::box(double x, double y, double wide, double high, std::string_view colour) {
    body_ += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\"/>\n",
                         x, y, wide, high, colour);
}

void Svg::dot(double x, double y, double radius, std::string_view colour) {
    body_ +=
        fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"{}\"/>\n", x, y, radius, colour);
}

std::string Svg::finished() const {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}\" "
        "height=\"{1:.0f}\" font-family=\"sans-serif\">\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{2}</svg>\n",
        width_, height_, body_);
}

} // namespace coilward
