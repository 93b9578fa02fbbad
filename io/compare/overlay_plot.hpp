// Curves of several runs over each other, as a drawing inside a page.
#pragma once

#include "io/compare/run_record.hpp"

#include <array>
#include <string>
#include <vector>

namespace flangewright::compare {

/// How a variant is known by in plots and tables: a colour and a pattern of dashes, which tell it
/// apart in grey print, too.
struct Stroke {
    std::string colour; ///< "#185f78"
    std::string dashes; ///< as SVG writes them; empty: a whole line
};

/// Of the variant with this number, from 0. Units: none. Source: own choice. Fails: never.
[[nodiscard]] Stroke stroke_of(std::size_t number);

/// One line, in the units of the titles.
struct PlotLine {
    std::size_t number = 0; ///< of its variant, from 0; written at its end from 1
    Curve curve;
};

/// What is drawn.
struct OverlayPlot {
    std::string title;
    std::string up_title;
    std::string along_title;
    std::vector<PlotLine> lines;
};

/// Least and most of an axis and the step of its marks, round numbers round all values and at least
/// 1 apart. Units: deg or per cent. Source: none needed. Fails: never.
[[nodiscard]] std::array<double, 3> round_axis(double least, double most);

/// SVG; empty when there is no curve with two points. Units: as the titles say. Source: SVG 1.1.
/// Fails: never.
[[nodiscard]] std::string overlay_plot(const OverlayPlot& plot);

} // namespace flangewright::compare
