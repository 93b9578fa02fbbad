// What the charts share: the frame on the paper, lines, axes with round ticks.
#pragma once

#include "io/vtk/canvas.hpp"

#include <vtkNew.h>

#include <array>
#include <vector>

class vtkAxis;
class vtkChartXY;

namespace flangewright::chart {

/// Colour as the pen wants it, width in pixels.
struct Stroke {
    std::array<int, 3> colour{0, 0, 0};
    float width = 2;
    bool is_dashed = false;
};

/// Of two curves. Blue-green and orange differ in lightness, too, and to every kind of colour
/// vision.
inline constexpr std::array<std::array<int, 3>, 2> curve_colours{{{24, 96, 120}, {204, 102, 0}}};

/// The chart's frame on the paper, in pixels.
inline constexpr float left = 120;
inline constexpr float bottom = 150;
inline constexpr float right = 1540;
inline constexpr float top = 795;
inline constexpr float fineness = vtk::Canvas::fineness;

/// Makes the chart fill the frame, without a key box. Units: none. Source: none needed. Fails:
/// never.
void fill_frame(vtkChartXY& chart);

/// A line through the points; lists of one length. Units: those of the axes. Source: none needed.
/// Fails: never.
void add_line(
    vtkChartXY& chart,
    const std::vector<double>& x,
    const std::vector<double>& y,
    const Stroke& stroke
);

/// Small marks at the points, `width` across. Units, source, fails: as add_line.
void add_marks(
    vtkChartXY& chart,
    const std::vector<double>& x,
    const std::vector<double>& y,
    const Stroke& stroke
);

/// An axis from `least` to `most` with round ticks. Units: those of the axis. Source: none needed.
/// Fails: never.
void set_axis(vtkAxis& axis, double least, double most);

/// Puts the finished chart on the canvas. Units: none. Source: none needed. Fails: never.
void show(vtk::Canvas& canvas, vtkChartXY& chart);

} // namespace flangewright::chart
