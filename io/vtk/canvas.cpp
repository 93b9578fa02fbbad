#include "io/vtk/canvas.hpp"

#include <vtkActor2D.h>
#include <vtkCamera.h>
#include <vtkCellArray.h>
#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkPNGWriter.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper2D.h>
#include <vtkProperty2D.h>
#include <vtkRenderWindow.h>
#include <vtkRenderer.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>
#include <vtkTextRenderer.h>
#include <vtkUnsignedCharArray.h>
#include <vtkWindowToImageFilter.h>

#include <array>

namespace flangewright::vtk {

namespace {

/// Left, bottom, right, top of the scene as shares of the paper.
constexpr std::array<double, 4> scene_part{0.02, 0.07, 0.86, 0.865};
constexpr Colour quiet{0.38, 0.38, 0.38};

vtkNew<vtkImageData> averaged_down(vtkImageData& large) {
    constexpr int n = Canvas::fineness;
    vtkNew<vtkImageData> small;
    small->SetDimensions(Canvas::width, Canvas::height, 1);
    small->AllocateScalars(VTK_UNSIGNED_CHAR, 3);
    const auto* from = static_cast<const unsigned char*>(large.GetScalarPointer());
    auto* to = static_cast<unsigned char*>(small->GetScalarPointer());
    for (int y = 0; y < Canvas::height; ++y) {
        for (int x = 0; x < Canvas::width; ++x) {
            for (int channel = 0; channel < 3; ++channel) {
                int sum = n * n / 2; // rounds to nearest
                for (int k = 0; k < n * n; ++k) {
                    const int row = n * y + k / n;
                    const int column = n * x + k % n;
                    sum += from[3 * (row * n * Canvas::width + column) + channel];
                }
                *to++ = static_cast<unsigned char>(sum / (n * n));
            }
        }
    }
    return small;
}

} // namespace

struct Canvas::Parts {
    vtkNew<vtkRenderWindow> window;
    vtkNew<vtkRenderer> paper;
    vtkNew<vtkRenderer> scene;
    vtkNew<vtkRenderer> front;
};

Canvas::Canvas(const PictureText& text) : parts_(std::make_unique<Parts>()) {
    // A case title may hold "$": plain text, never a formula to typeset.
    if (vtkTextRenderer* renderer = vtkTextRenderer::GetInstance()) {
        renderer->SetDefaultBackend(vtkTextRenderer::FreeType);
    }
    parts_->window->SetOffScreenRendering(1);
    parts_->window->SetMultiSamples(0);
    parts_->window->SetSize(fineness * width, fineness * height);
    parts_->window->SetDPI(72);
    parts_->window->SetNumberOfLayers(3);
    parts_->paper->SetBackground(1, 1, 1);
    parts_->paper->SetLayer(0);
    parts_->scene->SetLayer(1);
    parts_->scene->SetViewport(scene_part[0], scene_part[1], scene_part[2], scene_part[3]);
    parts_->window->AddRenderer(parts_->paper);
    parts_->front->SetLayer(2);
    parts_->window->AddRenderer(parts_->scene);
    parts_->window->AddRenderer(parts_->front);
    add_text(text.title, {.x = 0.03, .y = 0.935, .size = 36, .is_bold = true});
    add_text(text.subtitle, {.x = 0.03, .y = 0.886, .size = 25, .colour = quiet});
    add_text(text.footer, {.x = 0.03, .y = 0.022, .size = 18, .colour = quiet});
}

Canvas::~Canvas() = default;

vtkRenderer& Canvas::scene() {
    return *parts_->scene;
}

double Canvas::scene_aspect() const {
    return (scene_part[3] - scene_part[1]) * height / ((scene_part[2] - scene_part[0]) * width);
}

vtkRenderer& Canvas::paper() {
    return *parts_->paper;
}

vtkRenderer& Canvas::front() {
    return *parts_->front;
}

TextPlace Canvas::on_paper(double scene_x, double scene_y) {
    return {
        .x = scene_part[0] + scene_x * (scene_part[2] - scene_part[0]),
        .y = scene_part[1] + scene_y * (scene_part[3] - scene_part[1])};
}

void Canvas::add_text(const std::string& text, const TextPlace& place) {
    if (text.empty()) {
        return;
    }
    vtkNew<vtkTextActor> actor;
    actor->SetInput(printable(text, 150).c_str());
    actor->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
    actor->SetPosition(place.x, place.y);
    vtkTextProperty* look = actor->GetTextProperty();
    look->SetFontFamilyToArial();
    look->SetFontSize(fineness * place.size);
    look->SetBold(place.is_bold ? 1 : 0);
    look->SetColor(place.colour[0], place.colour[1], place.colour[2]);
    if (place.is_centred) {
        look->SetJustificationToCentered();
    }
    if (place.is_on_white) {
        look->SetBackgroundColor(1, 1, 1);
        look->SetBackgroundOpacity(0.85);
    }
    parts_->front->AddActor2D(actor);
}

void Canvas::add_stroke(const std::array<double, 2>& from, const std::array<double, 2>& to) {
    vtkNew<vtkPoints> points;
    vtkNew<vtkCellArray> cells;
    cells->InsertNextCell(2);
    for (const std::array<double, 2>& at : {from, to}) {
        cells->InsertCellPoint(points->InsertNextPoint(fineness * at[0], fineness * at[1], 0));
    }
    vtkNew<vtkPolyData> shape;
    shape->SetPoints(points);
    shape->SetLines(cells);
    vtkNew<vtkPolyDataMapper2D> mapper;
    mapper->SetInputData(shape);
    vtkNew<vtkActor2D> actor;
    actor->SetMapper(mapper);
    actor->GetProperty()->SetColor(0.15, 0.15, 0.15);
    actor->GetProperty()->SetLineWidth(fineness * 1.3F);
    parts_->front->AddActor2D(actor);
}

std::string Canvas::png() {
    parts_->window->Render();
    vtkNew<vtkWindowToImageFilter> image;
    image->SetInput(parts_->window);
    image->SetInputBufferTypeToRGB();
    image->ReadFrontBufferOff();
    image->Update();
    vtkNew<vtkPNGWriter> writer;
    writer->SetInputData(averaged_down(*image->GetOutput()));
    writer->WriteToMemoryOn();
    writer->Write();
    vtkUnsignedCharArray* values = writer->GetResult();
    if (values == nullptr) {
        return {};
    }
    const auto* begin = reinterpret_cast<const char*>(values->GetPointer(0));
    return {begin, begin + values->GetNumberOfValues()};
}

} // namespace flangewright::vtk
