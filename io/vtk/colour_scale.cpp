#include "io/vtk/colour_scale.hpp"

#include "io/vtk/canvas.hpp"

#include <fmt/format.h>
#include <vtkActor2D.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper2D.h>
#include <vtkProperty2D.h>
#include <vtkRenderer.h>
#include <vtkUnsignedCharArray.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::vtk {

namespace {

/// The bar on the paper, in pixels.
constexpr double left = 1424;
constexpr double right = 1462;
constexpr double low = 180;
constexpr double high = 770;
constexpr double tick_length = 9;

void add_shape(Canvas& canvas, vtkPolyData* shape) {
    vtkNew<vtkPolyDataMapper2D> mapper;
    mapper->SetInputData(shape);
    vtkNew<vtkActor2D> actor;
    actor->SetMapper(mapper);
    actor->GetProperty()->SetColor(0.15, 0.15, 0.15);
    actor->GetProperty()->SetLineWidth(Canvas::fineness * 1.3F);
    canvas.front().AddActor2D(actor);
}

vtkIdType add_point(vtkPoints& points, double x, double y) {
    return points.InsertNextPoint(Canvas::fineness * x, Canvas::fineness * y, 0);
}

void add_bar(Canvas& canvas) {
    constexpr int n_colours = 256;
    vtkNew<vtkPoints> points;
    vtkNew<vtkCellArray> cells;
    vtkNew<vtkUnsignedCharArray> colours;
    colours->SetNumberOfComponents(3);
    for (int i = 0; i <= n_colours; ++i) {
        const double y = low + (high - low) * i / n_colours;
        const vtkIdType first = add_point(*points, left, y);
        add_point(*points, right, y);
        if (i > 0) {
            const std::array<vtkIdType, 4> ids{first - 2, first - 1, first + 1, first};
            cells->InsertNextCell(4, ids.data());
            for (const double part : colour_at((i - 1) / (n_colours - 1.0))) {
                colours->InsertNextValue(static_cast<unsigned char>(std::lround(255 * part)));
            }
        }
    }
    vtkNew<vtkPolyData> shape;
    shape->SetPoints(points);
    shape->SetPolys(cells);
    shape->GetCellData()->SetScalars(colours);
    add_shape(canvas, shape);
}

} // namespace

void add_colour_scale(Canvas& canvas, const ColourScale& scale) {
    const int n_steps = n_scale_steps(scale.top);
    const int n_decimals = n_decimals_for(scale.top / n_steps);
    add_bar(canvas);
    for (int i = 0; i <= n_steps; ++i) {
        const double share = static_cast<double>(i) / n_steps;
        const double y = low + share * (high - low);
        canvas.add_stroke({right, y}, {right + tick_length, y});
        canvas.add_text(
            fmt::format("{:.{}f}", share * scale.top, n_decimals),
            {.x = (right + 1.8 * tick_length) / Canvas::width,
             .y = (y - 10) / Canvas::height,
             .size = 26}
        );
    }
    canvas.add_text(
        scale.title,
        {.x = (0.5 * (left + right) + 20) / Canvas::width,
         .y = (high + 30) / Canvas::height,
         .size = 25,
         .is_bold = true,
         .is_centred = true}
    );
}

int n_scale_steps(double top) {
    for (const int n_steps : {4, 5, 3}) {
        const double step = top / n_steps;
        const double leading = step / std::pow(10.0, std::floor(std::log10(step) + 1e-9));
        for (const double round : {1.0, 2.0, 5.0}) {
            if (std::abs(leading - round) < 1e-6) {
                return n_steps;
            }
        }
    }
    return 4;
}

int n_decimals_for(double step) {
    return step > 0 ? std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9))) : 0;
}

double round_up(double value) {
    if (!(value > 0) || !std::isfinite(value)) {
        return 1;
    }
    const double power = std::pow(10.0, std::floor(std::log10(value)));
    constexpr double rounding = 1 + 1e-9;
    for (const double step : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0}) {
        if (value <= rounding * step * power) {
            return step * power;
        }
    }
    return 10 * power;
}

} // namespace flangewright::vtk
