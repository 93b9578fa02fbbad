#include "io/chart/edge_chart.hpp"

#include "io/vtk/canvas.hpp"
#include "io/vtk/colour_scale.hpp"

#include <fmt/format.h>
#include <vtkAxis.h>
#include <vtkChartXY.h>
#include <vtkContextActor.h>
#include <vtkContextScene.h>
#include <vtkDoubleArray.h>
#include <vtkNew.h>
#include <vtkPen.h>
#include <vtkPlot.h>
#include <vtkRenderer.h>
#include <vtkTable.h>
#include <vtkTextProperty.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::chart {

namespace {

/// Colour as the pen wants it, width and stroke of one line.
struct Stroke {
    std::array<int, 3> colour{0, 0, 0};
    float width = 2;
};

/// The chart's frame on the paper, in pixels.
constexpr float left = 120;
constexpr float bottom = 150;
constexpr float right = 1540;
constexpr float top = 815;
constexpr float fineness = vtk::Canvas::fineness;

vtkNew<vtkTable> table_of(const std::vector<double>& x, const std::vector<double>& y) {
    vtkNew<vtkDoubleArray> along;
    along->SetName("station");
    vtkNew<vtkDoubleArray> up;
    up->SetName("stretch");
    for (std::size_t i = 0; i < x.size(); ++i) {
        along->InsertNextValue(x[i]);
        up->InsertNextValue(y[i]);
    }
    vtkNew<vtkTable> table;
    table->AddColumn(along);
    table->AddColumn(up);
    return table;
}

void add_line(
    vtkChartXY& chart,
    const std::vector<double>& x,
    const std::vector<double>& y,
    const Stroke& stroke
) {
    vtkPlot* plot = chart.AddPlot(vtkChart::LINE);
    plot->SetInputData(table_of(x, y), 0, 1);
    plot->GetPen()->SetColor(
        static_cast<unsigned char>(stroke.colour[0]),
        static_cast<unsigned char>(stroke.colour[1]),
        static_cast<unsigned char>(stroke.colour[2])
    );
    plot->SetWidth(fineness * stroke.width);
}

/// Distance between ticks that gives four to nine of them.
double tick_step(double span) {
    const double power = std::pow(10.0, std::floor(std::log10(span / 4)));
    for (const double step : {5.0, 2.0, 1.0}) {
        if (span / (step * power) >= 4) {
            return step * power;
        }
    }
    return power;
}

/// An axis from `least` to `most` with round ticks.
void set_axis(vtkAxis& axis, double least, double most) {
    const double step = tick_step(most - least);
    vtkNew<vtkDoubleArray> places;
    for (double at = std::ceil(least / step - 1e-9) * step; at <= most + 1e-9 * step; at += step) {
        places->InsertNextValue(std::abs(at) < 1e-9 * step ? 0.0 : at);
    }
    axis.SetTitle("");
    axis.SetBehavior(vtkAxis::FIXED);
    axis.SetRange(least, most);
    axis.SetCustomTickPositions(places);
    axis.SetNotation(vtkAxis::PRINTF_NOTATION);
    axis.SetLabelFormat(step < 1 ? "%.1f" : "%.0f");
    axis.GetLabelProperties()->SetFontSize(vtk::Canvas::fineness * 22);
    axis.SetLabelOffset(fineness * 8);
    axis.GetPen()->SetColor(90, 90, 90);
    axis.GetPen()->SetWidth(fineness * 1.5F);
    axis.GetGridPen()->SetColor(228, 228, 228);
    axis.GetGridPen()->SetWidth(fineness * 1.0F);
}

/// Lowest and highest stretch on the axis.
std::array<double, 2> stretch_range(const EdgeChart& chart) {
    double least = std::min(0.0, chart.by_hand_percent);
    double most = std::max(0.0, chart.by_hand_percent);
    for (const double stretch : chart.stretch_percent) {
        least = std::min(least, stretch);
        most = std::max(most, stretch);
    }
    most = std::max(most, chart.allowed_percent.value_or(most));
    return {
        least < 0 ? -vtk::round_up(-1.12 * least) : 0.0,
        most > 0 ? vtk::round_up(1.12 * most) : 0.0};
}

/// Words beside each line instead of a key box.
struct Caption {
    std::string text;
    double stretch = 0;
    vtk::Colour colour;
    bool is_below = false;
};

void add_caption(vtk::Canvas& canvas, const Caption& caption, const std::array<double, 2>& range) {
    const double share = (caption.stretch - range[0]) / (range[1] - range[0]);
    const double y = bottom + share * (top - bottom) + (caption.is_below ? -32 : 11);
    canvas.add_text(
        caption.text,
        {.x = 0.42,
         .y = y / vtk::Canvas::height,
         .size = 22,
         .is_on_white = true,
         .colour = caption.colour}
    );
}

void add_captions(vtk::Canvas& canvas, const EdgeChart& chart, const std::array<double, 2>& range) {
    const double hand = chart.by_hand_percent;
    if (chart.allowed_percent) {
        const double allowed = *chart.allowed_percent;
        const bool is_tight = std::abs(hand - allowed) < 0.06 * (range[1] - range[0]);
        add_caption(
            canvas,
            {fmt::format("allowed {:.1f} %", allowed),
             allowed,
             {0.1, 0.1, 0.1},
             is_tight && allowed < hand},
            range
        );
        add_caption(
            canvas,
            {fmt::format("by hand {:.1f} %", hand),
             hand,
             {0.4, 0.4, 0.4},
             is_tight && hand <= allowed},
            range
        );
    } else {
        add_caption(
            canvas, {fmt::format("by hand {:.1f} %", hand), hand, {0.4, 0.4, 0.4}, false}, range
        );
    }
}

} // namespace

std::string edge_chart(const EdgeChart& chart) {
    if (chart.stations.size() < 2 || chart.stretch_percent.size() != chart.stations.size()) {
        return {};
    }
    vtk::Canvas canvas(chart.text);
    const std::array<double, 2> range = stretch_range(chart);
    const std::vector<double> ends{chart.stations.front(), chart.stations.back()};
    vtkNew<vtkChartXY> drawing;
    drawing->SetShowLegend(false);
    drawing->SetAutoSize(false);
    drawing->SetLayoutStrategy(vtkChart::AXES_TO_RECT);
    drawing->SetSize(vtkRectf(
        fineness * left, fineness * bottom, fineness * (right - left), fineness * (top - bottom)
    ));
    if (chart.allowed_percent) {
        const double allowed = *chart.allowed_percent;
        add_line(*drawing, ends, {allowed, allowed}, {{26, 26, 26}, 3});
    }
    const double hand = chart.by_hand_percent;
    add_line(*drawing, ends, {hand, hand}, {{110, 110, 110}, 2.5F});
    add_line(*drawing, chart.stations, chart.stretch_percent, {{24, 96, 120}, 5});
    set_axis(*drawing->GetAxis(vtkAxis::BOTTOM), ends[0], ends[1]);
    set_axis(*drawing->GetAxis(vtkAxis::LEFT), range[0], range[1]);
    vtkNew<vtkContextActor> actor;
    actor->GetScene()->AddItem(drawing);
    canvas.paper().AddActor(actor);
    actor->GetScene()->SetRenderer(&canvas.paper());
    add_captions(canvas, chart, range);
    canvas.add_text("Edge stretch, %", {.x = 0.03, .y = 0.84, .size = 24});
    canvas.add_text(
        chart.station_title,
        {.x = 0.5 * (left + right) / vtk::Canvas::width, .y = 0.082, .size = 24, .is_centred = true}
    );
    return canvas.png();
}

} // namespace flangewright::chart
