// The template of a test flange at real size, as an SVG drawing.
#pragma once

#include "io/coupon/gauge_marks.hpp"

#include <string>
#include <vector>

namespace flangewright::coupon {

/// Flat outline, bend line, the block's outline, marks with numbers, steps with radius and stretch,
/// and bars of 100 mm and 4 in to check the print with. One unit of the drawing is one millimetre.
/// Units: mm. Source: SVG 1.1 (W3C), from memory: paths, lines, text. Fails: never.
[[nodiscard]] std::string template_drawing(
    const job::Job& coupon, const TestFlange& flange, const std::vector<GaugeMark>& marks
);

} // namespace flangewright::coupon
