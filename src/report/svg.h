#pragma once

#include <string>
#include <string_view>

namespace coilward {

/// A drawing of so many pixels, as SVG 1.1. The origin is the upper left corner.
class Svg {
public:
    /// Pixels, from the upper left.
    Svg(double width, double height) : width_(width), height_(height) {}

    /// Words on a baseline that begins, ends or has its middle at x, y, as `anchor` says: "start", "end" or
    /// "middle". The words are escaped; a colour is as CSS writes it, the size in pixels.
    void text(double x, double y, std::string_view words, std::string_view colour, int size = 13,
              std::string_view anchor = "start");

    /// A line of that width; `dashes` as SVG's stroke-dasharray.
    void line(double x1, double y1, double x2, double y2, std::string_view colour, double width = 1.0,
              std::string_view dashes = "none");

    /// A filled rectangle with its upper left corner at x, y.
    void box(double x, double y, double wide, double high, std::string_view colour);

    /// A filled circle about x, y.
    void dot(double x, double y, double radius, std::string_view colour);

    /// Elements that were written elsewhere.
    void add(std::string_view elements) { body_ += elements; }

    /// For a picture that knows its end only when it is drawn.
    void set_height(double height) { height_ = height; }

    /// The whole document.
    std::string finished() const;

private:
    double width_;
    double height_;
    std::string body_;
};

} // namespace coilward
