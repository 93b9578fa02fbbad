#include "io/chart/chart_frame.hpp"

#include <vtkAxis.h>
#include <vtkChartXY.h>
#include <vtkContextActor.h>
#include <vtkContextScene.h>
#include <vtkDoubleArray.h>
#include <vtkPen.h>
#include <vtkPlotPoints.h>
#include <vtkRenderer.h>
#include <vtkTable.h>
#include <vtkTextProperty.h>

#include <cmath>

namespace flangewright::chart {

namespace {

vtkNew<vtkTable> table_of(const std::vector<double>& x, const std::vector<double>& y) {
    vtkNew<vtkDoubleArray> along;
    along->SetName("x");
    vtkNew<vtkDoubleArray> up;
    up->SetName("y");
    for (std::size_t i = 0; i < x.size(); ++i) {
        along->InsertNextValue(x[i]);
        up->InsertNextValue(y[i]);
    }
    vtkNew<vtkTable> table;
    table->AddColumn(along);
    table->AddColumn(up);
    return table;
}

void use_stroke(vtkPlot& plot, const Stroke& stroke) {
    plot.GetPen()->SetColor(
        static_cast<unsigned char>(stroke.colour[0]),
        static_cast<unsigned char>(stroke.colour[1]),
        static_cast<unsigned char>(stroke.colour[2])
    );
    plot.SetWidth(fineness * stroke.width);
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

} // namespace

void fill_frame(vtkChartXY& chart) {
    chart.SetShowLegend(false);
    chart.SetAutoSize(false);
    chart.SetLayoutStrategy(vtkChart::AXES_TO_RECT);
    chart.SetSize(vtkRectf(
        fineness * left, fineness * bottom, fineness * (right - left), fineness * (top - bottom)
    ));
}

void add_line(
    vtkChartXY& chart,
    const std::vector<double>& x,
    const std::vector<double>& y,
    const Stroke& stroke
) {
    vtkPlot* plot = chart.AddPlot(vtkChart::LINE);
    plot->SetInputData(table_of(x, y), 0, 1);
    use_stroke(*plot, stroke);
    plot->GetPen()->SetLineType(stroke.is_dashed ? vtkPen::DASH_LINE : vtkPen::SOLID_LINE);
}

void add_marks(
    vtkChartXY& chart,
    const std::vector<double>& x,
    const std::vector<double>& y,
    const Stroke& stroke
) {
    auto* plot = vtkPlotPoints::SafeDownCast(chart.AddPlot(vtkChart::POINTS));
    plot->SetInputData(table_of(x, y), 0, 1);
    use_stroke(*plot, stroke);
    plot->SetMarkerStyle(vtkPlotPoints::CIRCLE);
    plot->SetMarkerSize(fineness * stroke.width);
}

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
    axis.SetLabelFormat(step < 0.1 ? "%.2f" : (step < 1 ? "%.1f" : "%.0f"));
    axis.GetLabelProperties()->SetFontSize(vtk::Canvas::fineness * 26);
    axis.SetLabelOffset(fineness * 8);
    axis.GetPen()->SetColor(90, 90, 90);
    axis.GetPen()->SetWidth(fineness * 1.5F);
    axis.GetGridPen()->SetColor(228, 228, 228);
    axis.GetGridPen()->SetWidth(fineness * 1.0F);
}

void show(vtk::Canvas& canvas, vtkChartXY& chart) {
    vtkNew<vtkContextActor> actor;
    actor->GetScene()->AddItem(&chart);
    canvas.paper().AddActor(actor);
    actor->GetScene()->SetRenderer(&canvas.paper());
}

} // namespace flangewright::chart
