#include "io/chart/curve_chart.hpp"

#include "io/chart/chart_frame.hpp"
#include "io/vtk/colour_scale.hpp"

#include <vtkAxis.h>
#include <vtkChartXY.h>

#include <algorithm>
#include <array>

namespace flangewright::chart {

namespace {

constexpr int n_samples = 300;
constexpr int caption_size = 26;

vtk::Colour paint(std::size_t curve) {
    const std::array<int, 3>& colour = curve_colours[curve % curve_colours.size()];
    return {colour[0] / 255.0, colour[1] / 255.0, colour[2] / 255.0};
}

/// Both axes, from zero.
struct Extent {
    double strain = 0;
    double stress = 0;

    [[nodiscard]] double x(double at) const { return left + at / strain * (right - left); }
    [[nodiscard]] double y(double at) const { return bottom + at / stress * (top - bottom); }
};

Extent extent_of(const CurveChart& chart) {
    Extent extent{last_strain(chart), 0};
    for (const DrawnCurve& curve : chart.curves) {
        extent.stress = std::max(extent.stress, curve.stress(extent.strain));
    }
    for (const double stress : chart.measured_stress) {
        extent.stress = std::max(extent.stress, stress);
    }
    extent.stress = vtk::round_up(1.12 * extent.stress);
    return extent;
}

void add_stretch(
    vtkChartXY& drawing, const DrawnCurve& curve, double from, double to, const Stroke& stroke
) {
    if (to <= from) {
        return;
    }
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i <= n_samples; ++i) {
        // Closer where the curve bends most, at its start.
        const double share = static_cast<double>(i) / n_samples;
        x.push_back(from + (to - from) * share * share);
        y.push_back(curve.stress(x.back()));
    }
    add_line(drawing, x, y, stroke);
}

void add_curve(
    vtkChartXY& drawing, const CurveChart& chart, const Extent& extent, std::size_t number
) {
    const DrawnCurve& curve = chart.curves[number];
    Stroke stroke{curve_colours[number % curve_colours.size()], number == 0 ? 5.0F : 3.5F};
    if (!chart.measured_strain.empty()) {
        stroke.width = 3; // leaves the dots to be seen
    }
    add_stretch(drawing, curve, curve.fitted_from, curve.fitted_to, stroke);
    stroke.is_dashed = true;
    stroke.width -= 1;
    add_stretch(drawing, curve, 0, std::min(curve.fitted_from, extent.strain), stroke);
    add_stretch(drawing, curve, std::max(curve.fitted_to, 0.0), extent.strain, stroke);
}

/// The name at the curve's end: above the upper curve, beneath the lower one.
void add_name(
    vtk::Canvas& canvas, const CurveChart& chart, const Extent& extent, std::size_t number
) {
    const DrawnCurve& curve = chart.curves[number];
    const double end = curve.stress(extent.strain);
    const bool is_below = std::ranges::any_of(chart.curves, [&](const DrawnCurve& other) {
        return other.stress(extent.strain) > end;
    });
    const double width = 0.52 * caption_size * static_cast<double>(curve.name.size());
    const double x = right - width - 20;
    const double first = extent.strain * (x - left) / (right - left);
    const double height = is_below ? extent.y(curve.stress(first)) - 44 : extent.y(end) + 16;
    canvas.add_text(
        curve.name,
        {.x = x / vtk::Canvas::width,
         .y = height / vtk::Canvas::height,
         .size = caption_size,
         .is_bold = number == 0,
         .is_on_white = true,
         .colour = paint(number)}
    );
}

/// One line above the other, from the chart's foot up.
double foot_line(std::size_t number) {
    return bottom + 22 + 34 * static_cast<double>(number);
}

void add_parameters(vtk::Canvas& canvas, const DrawnCurve& curve, std::size_t number) {
    canvas.add_text(
        curve.parameters,
        {.x = (left + 24) / vtk::Canvas::width,
         .y = foot_line(number) / vtk::Canvas::height,
         .size = 22,
         .is_on_white = true,
         .colour = paint(number)}
    );
}

/// Right of the mark, or left of it where they would run out of the chart.
void add_uniform_words(vtk::Canvas& canvas, const CurveChart& chart, const Extent& extent) {
    constexpr int size = 24;
    const double mark = extent.x(*chart.uniform_strain);
    const double width = 0.52 * size * static_cast<double>(chart.uniform_words.size());
    const bool has_room = mark + 14 + width < right;
    canvas.add_text(
        chart.uniform_words,
        {.x = (has_room ? mark + 14 : mark - 14 - width) / vtk::Canvas::width,
         .y = foot_line(chart.curves.size()) / vtk::Canvas::height,
         .size = size,
         .is_on_white = true,
         .colour = {0.3, 0.3, 0.3}}
    );
}

void add_words(vtk::Canvas& canvas, const CurveChart& chart, const Extent& extent) {
    for (std::size_t i = 0; i < chart.curves.size(); ++i) {
        add_name(canvas, chart, extent, i);
        add_parameters(canvas, chart.curves[i], i);
    }
    if (chart.uniform_strain) {
        add_uniform_words(canvas, chart, extent);
    }
    canvas.add_text("True stress, MPa", {.x = 0.03, .y = 0.825, .size = 26});
    canvas.add_text(
        "True plastic strain",
        {.x = 0.5 * (left + right) / vtk::Canvas::width, .y = 0.072, .size = 26, .is_centred = true}
    );
}

} // namespace

double last_strain(const CurveChart& chart) {
    double farthest = chart.uniform_strain.value_or(0);
    for (const DrawnCurve& curve : chart.curves) {
        farthest = std::max(farthest, curve.fitted_to);
    }
    for (const double strain : chart.measured_strain) {
        farthest = std::max(farthest, strain);
    }
    return vtk::round_up(std::max(1.5 * farthest, 0.05));
}

std::string curve_chart(const CurveChart& chart) {
    if (chart.curves.empty() && chart.measured_strain.empty()) {
        return {};
    }
    vtk::Canvas canvas(chart.text);
    const Extent extent = extent_of(chart);
    vtkNew<vtkChartXY> drawing;
    fill_frame(*drawing);
    if (chart.uniform_strain) {
        const double at = *chart.uniform_strain;
        add_line(*drawing, {at, at}, {0, extent.stress}, {{140, 140, 140}, 2, true});
    }
    add_marks(*drawing, chart.measured_strain, chart.measured_stress, {{165, 165, 165}, 9});
    for (std::size_t i = chart.curves.size(); i-- > 0;) { // the one that is used lies on top
        add_curve(*drawing, chart, extent, i);
    }
    set_axis(*drawing->GetAxis(vtkAxis::BOTTOM), 0, extent.strain);
    set_axis(*drawing->GetAxis(vtkAxis::LEFT), 0, extent.stress);
    drawing->GetAxis(vtkAxis::BOTTOM)->SetLabelOffset(fineness * 18); // both zeros stay apart
    show(canvas, *drawing);
    add_words(canvas, chart, extent);
    return canvas.png();
}

} // namespace flangewright::chart
