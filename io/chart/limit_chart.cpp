#include "io/chart/limit_chart.hpp"

#include "io/chart/chart_frame.hpp"
#include "io/vtk/colour_scale.hpp"

#include <vtkAxis.h>
#include <vtkChartXY.h>

#include <algorithm>
#include <array>

namespace flangewright::chart {

namespace {

constexpr std::array<int, 3> colour_of_points{60, 60, 60};
constexpr double least_shown = 0.05;

/// One line beneath the other from the upper left corner, which a limit leaves free: it is lowest
/// near no minor strain and rises furthest on the right.
void add_line_of_words(
    vtk::Canvas& canvas,
    const std::string& words,
    std::size_t number,
    const std::array<int, 3>& colour
) {
    canvas.add_text(
        words,
        {.x = (left + 24) / vtk::Canvas::width,
         .y = (top - 44 - 34 * static_cast<double>(number)) / vtk::Canvas::height,
         .size = 22,
         .is_on_white = true,
         .colour = {colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0}}
    );
}

void add_words(vtk::Canvas& canvas, const LimitChart& chart) {
    for (std::size_t i = 0; i < chart.curves.size(); ++i) {
        add_line_of_words(canvas, chart.curves[i].name, i, curve_colours[i % curve_colours.size()]);
    }
    if (!chart.measured_words.empty()) {
        add_line_of_words(canvas, chart.measured_words, chart.curves.size(), colour_of_points);
    }
    canvas.add_text("Major true strain", {.x = 0.03, .y = 0.825, .size = 26});
    canvas.add_text(
        "Minor true strain",
        {.x = 0.5 * (left + right) / vtk::Canvas::width, .y = 0.072, .size = 26, .is_centred = true}
    );
}

void add_curve(vtkChartXY& drawing, const LimitCurve& curve, std::size_t number) {
    add_line(
        drawing,
        curve.minor,
        curve.major,
        {curve_colours[number % curve_colours.size()], curve.is_used ? 5.0F : 3.0F, !curve.is_used}
    );
}

} // namespace

LimitExtent extent_of(const LimitChart& chart) {
    LimitExtent extent{0, 0, least_shown};
    const auto include = [&extent](const auto& minor, const auto& major) {
        for (std::size_t i = 0; i < minor.size(); ++i) {
            extent.least_minor = std::min(extent.least_minor, minor[i]);
            extent.most_minor = std::max(extent.most_minor, minor[i]);
            extent.most_major = std::max(extent.most_major, major[i]);
        }
    };
    for (const LimitCurve& curve : chart.curves) {
        include(curve.minor, curve.major);
    }
    include(chart.measured_minor, chart.measured_major);
    constexpr double beyond = 1.05;
    extent.least_minor = -vtk::round_up(beyond * std::max(-extent.least_minor, least_shown));
    extent.most_minor = vtk::round_up(beyond * std::max(extent.most_minor, least_shown));
    extent.most_major = vtk::round_up(beyond * extent.most_major);
    return extent;
}

std::string limit_chart(const LimitChart& chart) {
    if (chart.curves.empty() && chart.measured_minor.empty()) {
        return {};
    }
    vtk::Canvas canvas(chart.text);
    const LimitExtent extent = extent_of(chart);
    vtkNew<vtkChartXY> drawing;
    fill_frame(*drawing);
    add_line(*drawing, {0, 0}, {0, extent.most_major}, {{160, 160, 160}, 2, false});
    for (std::size_t i = chart.curves.size(); i-- > 0;) { // the one that is used lies on top
        add_curve(*drawing, chart.curves[i], i);
    }
    add_marks(*drawing, chart.measured_minor, chart.measured_major, {colour_of_points, 14});
    set_axis(*drawing->GetAxis(vtkAxis::BOTTOM), extent.least_minor, extent.most_minor);
    set_axis(*drawing->GetAxis(vtkAxis::LEFT), 0, extent.most_major);
    drawing->GetAxis(vtkAxis::BOTTOM)->SetLabelOffset(fineness * 18); // corner labels stay apart
    show(canvas, *drawing);
    add_words(canvas, chart);
    return canvas.png();
}

} // namespace flangewright::chart
