#include "io/chart/section_picture.hpp"

#include "io/vtk/canvas.hpp"
#include "solver/process/second_block.hpp"

#include <vtkActor.h>
#include <vtkCamera.h>
#include <vtkCellArray.h>
#include <vtkNew.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRenderer.h>
#include <vtkTriangleFilter.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::chart {

namespace {

using Eigen::Vector2d;
using Outline = std::vector<Vector2d>;

constexpr vtk::Colour ink{0.12, 0.12, 0.12};
constexpr vtk::Colour block_grey{0.90, 0.90, 0.89};
constexpr vtk::Colour held_grey{0.66, 0.67, 0.68};
constexpr vtk::Colour held_line{0.42, 0.43, 0.44};
constexpr vtk::Colour quiet{0.38, 0.38, 0.38};
constexpr vtk::Colour released_blue{0.10, 0.38, 0.47};

/// Part of the plane that is shown, mm.
struct Window {
    double left = 0;
    double right = 0;
    double low = 0;
    double high = 0;
};

/// One flat thing: fill, line, and how near it lies (later ones cover earlier ones).
struct Look {
    vtk::Colour fill{1, 1, 1};
    vtk::Colour line = ink;
    float line_width = 1.5F;
    double nearness = 0;
};

vtkNew<vtkPoints> points_of(const Outline& outline, double nearness) {
    vtkNew<vtkPoints> points;
    for (const Vector2d& at : outline) {
        points->InsertNextPoint(at.x(), at.y(), nearness);
    }
    return points;
}

void add_actor(vtkRenderer& scene, vtkPolyData* shape, const vtk::Colour& colour, float width) {
    vtkNew<vtkPolyDataMapper> mapper;
    mapper->SetInputData(shape);
    vtkNew<vtkActor> actor;
    actor->SetMapper(mapper);
    actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
    actor->GetProperty()->SetLineWidth(vtk::Canvas::fineness * width);
    actor->GetProperty()->LightingOff();
    scene.AddActor(actor);
}

void add_line(vtkRenderer& scene, const Outline& line, const Look& look) {
    vtkNew<vtkCellArray> cells;
    cells->InsertNextCell(static_cast<int>(line.size()));
    for (std::size_t i = 0; i < line.size(); ++i) {
        cells->InsertCellPoint(static_cast<vtkIdType>(i));
    }
    vtkNew<vtkPolyData> shape;
    shape->SetPoints(points_of(line, look.nearness + 0.05));
    shape->SetLines(cells);
    add_actor(scene, shape, look.line, look.line_width);
}

/// A filled outline, closed, of any shape.
void add_area(vtkRenderer& scene, Outline outline, const Look& look) {
    vtkNew<vtkCellArray> cells;
    cells->InsertNextCell(static_cast<int>(outline.size()));
    for (std::size_t i = 0; i < outline.size(); ++i) {
        cells->InsertCellPoint(static_cast<vtkIdType>(i));
    }
    vtkNew<vtkPolyData> shape;
    shape->SetPoints(points_of(outline, look.nearness));
    shape->SetPolys(cells);
    vtkNew<vtkTriangleFilter> triangles;
    triangles->SetInputData(shape);
    triangles->Update();
    add_actor(scene, triangles->GetOutput(), look.fill, 1);
    outline.push_back(outline.front());
    add_line(scene, outline, look);
}

void add_sheet(vtkRenderer& scene, const SheetSection& sheet, const Look& look) {
    vtkNew<vtkPoints> points;
    vtkNew<vtkCellArray> cells;
    for (std::size_t i = 0; i < sheet.block_face.size(); ++i) {
        const Vector2d& inner = sheet.block_face[i];
        const Vector2d& outer = sheet.outer_face[i];
        points->InsertNextPoint(inner.x(), inner.y(), look.nearness);
        points->InsertNextPoint(outer.x(), outer.y(), look.nearness);
        if (i > 0) {
            const auto k = static_cast<vtkIdType>(2 * i);
            const std::array<vtkIdType, 4> ids{k - 2, k, k + 1, k - 1};
            cells->InsertNextCell(4, ids.data());
        }
    }
    vtkNew<vtkPolyData> shape;
    shape->SetPoints(points);
    shape->SetPolys(cells);
    add_actor(scene, shape, look.fill, 1);
    Outline rim = sheet.block_face;
    rim.insert(rim.end(), sheet.outer_face.rbegin(), sheet.outer_face.rend());
    rim.push_back(rim.front());
    add_line(scene, rim, look);
}

/// Face, nose and wall of the block, closed behind and below the shown window.
Outline block_outline(const job::Block& block, const Window& window) {
    constexpr int n_round = 48;
    const double radius = block.nose_radius;
    const double back = window.left - 5;
    const double foot = window.low - 5;
    Outline outline{{back, 0}};
    for (int i = 0; i <= n_round; ++i) {
        const double turned = block.wall_angle * i / n_round;
        outline.emplace_back(radius * std::sin(turned), radius * (std::cos(turned) - 1));
    }
    const Vector2d down(std::cos(block.wall_angle), -std::sin(block.wall_angle));
    const Vector2d nose_end = outline.back();
    if (down.y() < -0.1) {
        outline.emplace_back(nose_end + down * ((nose_end.y() - foot) / -down.y()));
    } else {
        outline.emplace_back(nose_end + 2 * (window.right - window.left) * down);
        outline.emplace_back(outline.back().x(), foot);
    }
    outline.emplace_back(back, foot);
    return outline;
}

/// From the block's face to beyond the lip: the second nose, and the face past it.
void add_second_nose(Outline& outline, const process::SecondSection& section, double radius) {
    constexpr int n_round = 48;
    for (int i = 0; i <= n_round; ++i) {
        const double turned = 0.5 * std::numbers::pi * i / n_round;
        const Vector2d own(radius * std::sin(turned), radius * (std::cos(turned) - 1));
        outline.emplace_back(section.axes * own + section.origin);
    }
}

/// Form block whose wall ends in the second nose: the lip goes back under it.
Outline block_under_lip(const job::Job& job, const Window& window) {
    Outline outline = block_outline(job.block, window);
    outline.resize(outline.size() - 2); // the wall's foot and what is behind it
    add_second_nose(outline, process::second_section(job), job.return_bend->nose_radius);
    outline.emplace_back(window.left - 5, outline.back().y());
    return outline;
}

/// Block outside the flange, over which a lip is turned away from the web.
Outline block_outside(const job::Job& job, const Window& window) {
    const process::SecondSection section = process::second_section(job);
    const double top = -job.block.nose_radius - job.sheet.thickness;
    const Vector2d up = -section.axes.col(0);
    Outline outline{section.origin + up * ((top - section.origin.y()) / up.y())};
    add_second_nose(outline, section, job.return_bend->nose_radius);
    outline.emplace_back(window.right + 5, outline.back().y());
    outline.emplace_back(window.right + 5, top);
    return outline;
}

double backing_height(const job::Job& job, const Window& window) {
    return std::max(6 * job.sheet.thickness, 0.12 * (window.high - window.low));
}

Outline backing_outline(const job::Job& job, const Window& window) {
    const double sheet_top = job.sheet.thickness;
    const double edge = -job.block.backing_setback;
    const double height = backing_height(job, window);
    const double back = window.left - 5;
    return {
        {back, sheet_top},
        {edge, sheet_top},
        {edge, sheet_top + height},
        {back, sheet_top + height}};
}

/// The flange whole, and as much of the web as gives the paper's shape.
Window window_for(const SectionPicture& picture, double aspect) {
    Window window{-1, 1, 0, 1};
    for (const SheetSection* sheet :
         {&picture.held, picture.released ? &*picture.released : nullptr}) {
        if (sheet == nullptr) {
            continue;
        }
        for (const Vector2d& at : sheet->outer_face) {
            window.right = std::max(window.right, at.x());
            window.low = std::min(window.low, at.y());
            window.high = std::max(window.high, at.y());
        }
    }
    const double margin = 0.10 * (window.high - window.low + window.right);
    window.low -= margin;
    window.high += 1.6 * margin;
    window.right += 2.5 * margin;
    const double web = picture.held.outer_face.front().x();
    const double wanted = window.right - (window.high - window.low) / aspect;
    // At least this much of the block, so that the words have room on it.
    const double least_block = 0.9 * window.right;
    window.left = std::min(std::max(std::min(wanted, -least_block), web - margin), -2 * margin);
    // The paper's shape exactly, so that places on it are known.
    window.low = std::min(window.low, window.high - (window.right - window.left) * aspect);
    window.right = std::max(window.right, window.left + (window.high - window.low) / aspect);
    return window;
}

void aim(vtkRenderer& scene, const Window& window, double aspect) {
    const double middle_x = 0.5 * (window.left + window.right);
    const double middle_y = 0.5 * (window.low + window.high);
    const double half_high = 0.5 * (window.high - window.low);
    const double half_wide = 0.5 * (window.right - window.left);
    vtkCamera* camera = scene.GetActiveCamera();
    camera->ParallelProjectionOn();
    camera->SetFocalPoint(middle_x, middle_y, 0);
    camera->SetPosition(middle_x, middle_y, 100);
    camera->SetViewUp(0, 1, 0);
    camera->SetParallelScale(std::max(half_high, half_wide * aspect));
    camera->SetClippingRange(1, 200);
}

/// Place on the paper of a place in the window, which has the scene's shape.
vtk::TextPlace place_of(const Vector2d& at, const Window& window) {
    return vtk::Canvas::on_paper(
        (at.x() - window.left) / (window.right - window.left),
        (at.y() - window.low) / (window.high - window.low)
    );
}

void add_ruler(vtk::Canvas& canvas, const SectionPicture& picture, const Window& window) {
    const double right = window.right - 0.03 * (window.right - window.left);
    const double y = window.low + 0.05 * (window.high - window.low);
    const double tick = 0.008 * (window.right - window.left);
    const double left = right - picture.ruler_length;
    const Look look{.line_width = 2.5F, .nearness = 8};
    add_line(canvas.scene(), {{left, y + tick}, {left, y}, {right, y}, {right, y + tick}}, look);
    vtk::TextPlace place = place_of({0.5 * (left + right), y + tick}, window);
    place.size = 24;
    place.is_centred = true;
    canvas.add_text(picture.ruler_caption, place);
}

/// On the backing, if it is high enough in the window to bear a word.
void add_backing_word(vtk::Canvas& canvas, const job::Job& job, const Window& window) {
    const double high = window.high - window.low;
    const double thickness = job.sheet.thickness;
    const double shown = std::min(window.high, thickness + backing_height(job, window)) - thickness;
    if (shown < 0.05 * high) {
        return;
    }
    vtk::TextPlace place = place_of({0, thickness + 0.5 * shown - 0.013 * high}, window);
    place.x = 0.05;
    place.size = 24;
    place.colour = quiet;
    canvas.add_text("backing", place);
}

/// The outline of the held sheet, seen through the released one.
void add_rim(vtkRenderer& scene, const SheetSection& sheet) {
    Outline rim = sheet.block_face;
    rim.insert(rim.end(), sheet.outer_face.rbegin(), sheet.outer_face.rend());
    rim.push_back(rim.front());
    add_line(scene, rim, {.line = held_line, .line_width = 1.5F, .nearness = 6});
}

} // namespace

SheetSection section_through(
    const std::vector<int>& nodes,
    const outline::LineFrame& frame,
    const Eigen::Matrix3Xd& positions,
    const Eigen::Matrix3Xd& directors,
    const Eigen::VectorXd& thickness
) {
    SheetSection section;
    for (const int node : nodes) {
        const Eigen::Vector3d half = 0.5 * thickness(node) * directors.col(node);
        const Eigen::Vector3d middle = positions.col(node) - frame.point;
        for (const double side : {-1.0, 1.0}) {
            const Eigen::Vector3d at = middle + side * half;
            (side < 0 ? section.block_face : section.outer_face)
                .emplace_back(at.dot(frame.outward), at.z());
        }
    }
    return section;
}

std::string section_picture(const job::Job& job, const SectionPicture& picture) {
    if (picture.held.outer_face.size() < 2) {
        return {};
    }
    vtk::Canvas canvas(picture.text);
    const Window window = window_for(picture, canvas.scene_aspect());
    vtkRenderer& scene = canvas.scene();
    const vtk::Colour soft{0.6, 0.6, 0.6};
    const bool is_under = job.return_bend && job.return_bend->side == job::LipSide::under_web;
    const bool has_lip_block = picture.shows_lip_block && job.return_bend;
    add_area(
        scene,
        has_lip_block && is_under ? block_under_lip(job, window) : block_outline(job.block, window),
        {.fill = block_grey, .line = soft}
    );
    if (has_lip_block && !is_under) {
        add_area(scene, block_outside(job, window), {.fill = block_grey, .line = soft});
    }
    add_area(scene, backing_outline(job, window), {.fill = block_grey, .line = soft});
    add_sheet(scene, picture.held, {.fill = held_grey, .line = ink, .nearness = 2});
    if (picture.released) {
        add_sheet(
            scene, *picture.released, {.fill = released_blue, .line = released_blue, .nearness = 4}
        );
        add_rim(scene, picture.held);
    }
    add_ruler(canvas, picture, window);
    aim(scene, window, canvas.scene_aspect());
    // The block always fills this corner, or the room above its lower edge, so these words never
    // cover the sheet.
    const double low = has_lip_block && is_under ? 0.30 : 0.10;
    canvas.add_text(
        picture.released_caption,
        {.x = 0.05, .y = low + 0.135, .size = 30, .is_bold = true, .colour = released_blue}
    );
    canvas.add_text(
        picture.held_caption,
        {.x = 0.05, .y = low + 0.08, .size = 30, .is_bold = true, .colour = held_line}
    );
    canvas.add_text("form block", {.x = 0.05, .y = low, .size = 24, .colour = quiet});
    add_backing_word(canvas, job, window);
    return canvas.png();
}

} // namespace flangewright::chart
