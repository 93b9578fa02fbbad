#include "io/sheet_page/lay_sketch.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::sheet_page {

namespace {

constexpr double middle_x = 60;
constexpr double middle_y = 30;
constexpr double half_length = 22;

std::string line(double x1, double y1, double x2, double y2, const char* look) {
    return fmt::format(
        "<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" {}/>", x1, y1, x2, y2, look
    );
}

/// Both barbs at the arrow's head, on paper whose y grows downward.
std::string barbs(double x, double y, double turn) {
    std::string text;
    for (const double side : {-0.45, 0.45}) {
        const double back = turn + side;
        text += line(x, y, x - 6 * std::cos(back), y + 6 * std::sin(back), "stroke-width=\"1.4\"");
    }
    return text;
}

} // namespace

std::string lay_sketch(double rolling_direction) {
    const double dx = half_length * std::cos(rolling_direction);
    const double dy = half_length * std::sin(rolling_direction);
    return "<svg class=\"lay\" viewBox=\"0 0 200 60\" role=\"img\" aria-label=\"rolling direction "
           "over the bend line\" stroke=\"#1c1c1c\" fill=\"none\">"
        + line(5, middle_y, 115, middle_y, "stroke-dasharray=\"6 2\" stroke-width=\"0.8\"")
        + line(middle_x - dx, middle_y + dy, middle_x + dx, middle_y - dy, "stroke-width=\"1.4\"")
        + barbs(middle_x + dx, middle_y - dy, rolling_direction)
        + barbs(middle_x - dx, middle_y + dy, rolling_direction + std::acos(-1.0))
        + "<g stroke=\"none\" fill=\"#1c1c1c\" font-size=\"8\"><text x=\"120\" y=\"12\">flange "
          "side</text><text x=\"120\" y=\"33\">bend line, middle</text><text x=\"120\" "
          "y=\"54\">web side</text></g></svg>";
}

} // namespace flangewright::sheet_page
