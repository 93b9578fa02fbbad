#include "io/vtk/part_picture.hpp"

#include "io/vtk/canvas.hpp"
#include "io/vtk/colour_scale.hpp"
#include "io/vtk/free_place.hpp"
#include "mesh/grid/outlines.hpp"

#include <Eigen/Geometry>
#include <fmt/format.h>
#include <vtkActor.h>
#include <vtkCamera.h>
#include <vtkCellArray.h>
#include <vtkDoubleArray.h>
#include <vtkLight.h>
#include <vtkLookupTable.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRenderer.h>

#include <array>
#include <cmath>

namespace flangewright::vtk {

namespace {

using Eigen::Matrix3Xd;
using Eigen::Vector3d;

constexpr Colour ink{0.12, 0.12, 0.12};
constexpr Colour faint{0.55, 0.55, 0.55};

vtkNew<vtkPoints> points_of(const Matrix3Xd& positions) {
    vtkNew<vtkPoints> points;
    for (Eigen::Index i = 0; i < positions.cols(); ++i) {
        points->InsertNextPoint(positions(0, i), positions(1, i), positions(2, i));
    }
    return points;
}

vtkNew<vtkDoubleArray> array_of(const Eigen::MatrixXd& field) {
    vtkNew<vtkDoubleArray> values;
    values->SetNumberOfComponents(static_cast<int>(field.rows()));
    values->SetNumberOfTuples(field.cols());
    for (Eigen::Index i = 0; i < field.cols(); ++i) {
        for (Eigen::Index j = 0; j < field.rows(); ++j) {
            values->SetComponent(i, static_cast<int>(j), field(j, i));
        }
    }
    return values;
}

vtkNew<vtkLookupTable> colour_table(double top) {
    constexpr int n_colours = 256;
    vtkNew<vtkLookupTable> table;
    table->SetNumberOfTableValues(n_colours);
    table->SetTableRange(0, top);
    for (int i = 0; i < n_colours; ++i) {
        const Colour colour = colour_at(i / (n_colours - 1.0));
        table->SetTableValue(i, colour[0], colour[1], colour[2]);
    }
    return table;
}

/// Both faces and the rim of the sheet, drawn into one scene.
class Drawing {
public:
    Drawing(vtkRenderer& scene, const grid::SheetMesh& mesh, const PartPicture& picture, double top)
        : scene_(scene), mesh_(mesh), edges_(grid::outlines(mesh)), picture_(picture),
          colours_(colour_table(top)) {}

    void draw_sheet() {
        add_face(1);
        add_face(-1);
        for (const std::vector<int>& edge : edges_) {
            add_rim(edge);
        }
    }

    void draw_lines() {
        for (const std::vector<int>& edge : edges_) {
            add_line(face(1.2), edge, ink, 2.0F);
            add_line(face(-1.2), edge, ink, 1.2F);
        }
        add_line(face(1.2), mesh_.bend_begin, faint, 1.0F);
        add_line(face(1.2), mesh_.bend_end, faint, 1.0F);
        if (picture_.other_shape) {
            for (const std::vector<int>& edge : edges_) {
                add_line(*picture_.other_shape, edge, faint, 2.0F);
            }
            add_line(*picture_.other_shape, mesh_.bend_begin, faint, 1.0F);
            add_line(*picture_.other_shape, mesh_.bend_end, faint, 1.0F);
        }
    }

    /// A dot at the largest figure; where many are as large, at the one nearest half way along.
    Vector3d draw_dot() {
        const Eigen::VectorXd& figure = picture_.figure;
        const double almost = figure.maxCoeff() - 0.002 * std::abs(figure.maxCoeff());
        const double half_way = 0.5 * mesh_.station.maxCoeff();
        Eigen::Index chosen = -1;
        for (Eigen::Index node = 0; node < figure.size(); ++node) {
            const double off = std::abs(mesh_.station(node) - half_way);
            if (figure(node) >= almost
                && (chosen < 0 || off < std::abs(mesh_.station(chosen) - half_way))) {
                chosen = node;
            }
        }
        Vector3d at = face(2).col(std::max<Eigen::Index>(chosen, 0));
        add_dot(at);
        return at;
    }

private:
    /// Points off the mid-surface: 1 on the outer face, -1 on the block face.
    [[nodiscard]] Matrix3Xd face(double side) const {
        return picture_.positions
            + picture_.directors * (0.5 * side * picture_.thickness).asDiagonal();
    }

    void add_actor(vtkPolyData* shape, bool is_smooth) {
        vtkNew<vtkPolyDataMapper> mapper;
        mapper->SetInputData(shape);
        mapper->SetLookupTable(colours_);
        mapper->UseLookupTableScalarRangeOn();
        mapper->InterpolateScalarsBeforeMappingOn();
        vtkNew<vtkActor> actor;
        actor->SetMapper(mapper);
        vtkProperty* look = actor->GetProperty();
        // Mostly even light, so that shading does not pass for a change of colour.
        look->SetAmbient(0.84);
        look->SetDiffuse(0.17);
        look->SetSpecular(0);
        if (is_smooth) {
            look->SetInterpolationToPhong();
        } else {
            look->SetInterpolationToFlat();
        }
        scene_.AddActor(actor);
    }

    void add_face(double side) {
        vtkNew<vtkCellArray> cells;
        for (const std::array<int, 4>& quad : mesh_.quads) {
            std::array<vtkIdType, 4> ids{quad[0], quad[1], quad[2], quad[3]};
            if (side < 0) {
                std::swap(ids[1], ids[3]);
            }
            cells->InsertNextCell(4, ids.data());
        }
        vtkNew<vtkPolyData> shape;
        shape->SetPoints(points_of(face(side)));
        shape->SetPolys(cells);
        shape->GetPointData()->SetScalars(array_of(picture_.figure.transpose()));
        shape->GetPointData()->SetNormals(array_of(side * picture_.directors));
        add_actor(shape, true);
    }

    void add_rim(const std::vector<int>& edge) {
        const Matrix3Xd outer = face(1);
        const Matrix3Xd inner = face(-1);
        vtkNew<vtkPoints> points;
        vtkNew<vtkDoubleArray> values;
        vtkNew<vtkCellArray> cells;
        for (std::size_t i = 0; i < edge.size(); ++i) {
            points->InsertNextPoint(outer.col(edge[i]).eval().data());
            points->InsertNextPoint(inner.col(edge[i]).eval().data());
            values->InsertNextValue(picture_.figure(edge[i]));
            values->InsertNextValue(picture_.figure(edge[i]));
            if (i > 0) {
                const auto k = static_cast<vtkIdType>(2 * i);
                const std::array<vtkIdType, 4> ids{k - 2, k - 1, k + 1, k};
                cells->InsertNextCell(4, ids.data());
            }
        }
        vtkNew<vtkPolyData> shape;
        shape->SetPoints(points);
        shape->SetPolys(cells);
        shape->GetPointData()->SetScalars(values);
        add_actor(shape, false);
    }

    void add_plain(vtkPolyData* shape, const Colour& colour, float width) {
        vtkNew<vtkPolyDataMapper> mapper;
        mapper->SetInputData(shape);
        mapper->ScalarVisibilityOff();
        vtkNew<vtkActor> actor;
        actor->SetMapper(mapper);
        actor->GetProperty()->SetColor(colour[0], colour[1], colour[2]);
        actor->GetProperty()->SetLineWidth(Canvas::fineness * width);
        actor->GetProperty()->SetPointSize(Canvas::fineness * 8 * width);
        actor->GetProperty()->RenderPointsAsSpheresOff();
        actor->GetProperty()->LightingOff();
        scene_.AddActor(actor);
    }

    void add_line(
        const Matrix3Xd& positions, const std::vector<int>& nodes, const Colour& colour, float width
    ) {
        vtkNew<vtkPoints> points;
        vtkNew<vtkCellArray> cells;
        cells->InsertNextCell(static_cast<int>(nodes.size()));
        for (const int node : nodes) {
            cells->InsertCellPoint(points->InsertNextPoint(positions.col(node).eval().data()));
        }
        vtkNew<vtkPolyData> shape;
        shape->SetPoints(points);
        shape->SetLines(cells);
        add_plain(shape, colour, width);
    }

    void add_dot(const Vector3d& at) {
        vtkNew<vtkPoints> points;
        vtkNew<vtkCellArray> cells;
        cells->InsertNextCell(1);
        cells->InsertCellPoint(points->InsertNextPoint(at.data()));
        vtkNew<vtkPolyData> shape;
        shape->SetPoints(points);
        shape->SetVerts(cells);
        add_plain(shape, ink, 1.0F);
    }

    vtkRenderer& scene_;
    const grid::SheetMesh& mesh_;
    std::vector<std::vector<int>> edges_;
    const PartPicture& picture_;
    vtkNew<vtkLookupTable> colours_;
};

/// Parallel view onto the outer face from the flange's side and above.
struct View {
    Vector3d toward_eye = Vector3d(0.42, 0.78, 0.62).normalized();
    Vector3d right = Vector3d::UnitZ().cross(toward_eye).normalized();
    Vector3d up = toward_eye.cross(right);
    Vector3d middle = Vector3d::Zero();
    double half_height = 1;
    double reach = 1;

    /// Place in the scene, from 0 to 1.
    [[nodiscard]] Eigen::Vector2d place(const Vector3d& at, double aspect) const {
        return {
            0.5 + 0.5 * right.dot(at - middle) * aspect / half_height,
            0.5 + 0.5 * up.dot(at - middle) / half_height};
    }
};

/// The view that fills the paper with the part.
View view_of(const Matrix3Xd& positions, double aspect) {
    View view;
    const auto middle_along = [&](const Vector3d& axis) {
        const Eigen::RowVectorXd along = axis.transpose() * positions;
        return Vector3d(0.5 * (along.minCoeff() + along.maxCoeff()) * axis);
    };
    const auto half_along = [&](const Vector3d& axis) {
        const Eigen::RowVectorXd along = axis.transpose() * positions;
        return 0.5 * (along.maxCoeff() - along.minCoeff());
    };
    view.middle = middle_along(view.right) + middle_along(view.up) + middle_along(view.toward_eye);
    view.half_height = 1.09 * std::max(half_along(view.up), half_along(view.right) * aspect);
    view.reach = (positions.colwise() - view.middle).colwise().norm().maxCoeff();
    return view;
}

void aim(vtkRenderer& scene, const View& view) {
    const Vector3d eye = view.middle + 4 * view.reach * view.toward_eye;
    vtkCamera* camera = scene.GetActiveCamera();
    camera->ParallelProjectionOn();
    camera->SetFocalPoint(view.middle.x(), view.middle.y(), view.middle.z());
    camera->SetPosition(eye.x(), eye.y(), eye.z());
    camera->SetViewUp(view.up.x(), view.up.y(), view.up.z());
    camera->SetParallelScale(view.half_height);
    scene.ResetCameraClippingRange();
}

Eigen::Vector2d pixels(const Eigen::Vector2d& in_scene) {
    const TextPlace place = Canvas::on_paper(in_scene.x(), in_scene.y());
    return {place.x * Canvas::width, place.y * Canvas::height};
}

/// Where the part covers the paper: some points of every element, and the other shape's edges.
std::vector<Eigen::Vector2d> covered_places(
    const grid::SheetMesh& mesh, const PartPicture& picture, const View& view, double aspect
) {
    constexpr int n_each_way = 4;
    std::vector<Eigen::Vector2d> covered;
    for (const std::array<int, 4>& quad : mesh.quads) {
        for (int k = 0; k < n_each_way * n_each_way; ++k) {
            const int row = k / n_each_way;
            const int column = k % n_each_way;
            const double u = static_cast<double>(column) / (n_each_way - 1);
            const double v = static_cast<double>(row) / (n_each_way - 1);
            const Vector3d at =
                (1 - v
                ) * ((1 - u) * picture.positions.col(quad[0]) + u * picture.positions.col(quad[1]))
                + v
                    * ((1 - u) * picture.positions.col(quad[3]) + u * picture.positions.col(quad[2])
                    );
            covered.push_back(pixels(view.place(at, aspect)));
        }
    }
    if (picture.other_shape) {
        for (const std::vector<int>& edge : grid::outlines(mesh)) {
            for (const int node : edge) {
                covered.push_back(pixels(view.place(picture.other_shape->col(node), aspect)));
            }
        }
    }
    return covered;
}

/// The text beside the part with a stroke to its dot; over the part only when there is no room.
void add_mark(
    Canvas& canvas,
    const Eigen::Vector2d& dot,
    const std::string& text,
    const std::vector<Eigen::Vector2d>& covered
) {
    constexpr int size = 28;
    const Eigen::Vector2d half(0.30 * size * static_cast<double>(text.size()) + 10, 0.6 * size + 4);
    const LabelRoom room{half, pixels({0, 0}), pixels({1, 1})};
    const std::optional<Eigen::Vector2d> free = free_place(dot, room, covered);
    const Eigen::Vector2d middle = free.value_or(dot - Eigen::Vector2d(0, 2 * size));
    const Eigen::Vector2d away = dot - middle;
    // From the label's rim to the dot.
    const double inside = std::min(
        half.x() / std::max(std::abs(away.x()), 1e-9), half.y() / std::max(std::abs(away.y()), 1e-9)
    );
    if (inside < 1) {
        const Eigen::Vector2d rim = middle + inside * away;
        canvas.add_stroke({rim.x(), rim.y()}, {dot.x(), dot.y()});
    }
    canvas.add_text(
        text,
        {.x = middle.x() / Canvas::width,
         .y = (middle.y() - 0.36 * size) / Canvas::height,
         .size = size,
         .is_bold = true,
         .is_centred = true,
         .is_on_white = !free}
    );
}

void add_light(vtkRenderer& scene) {
    vtkNew<vtkLight> light;
    light->SetLightTypeToCameraLight();
    light->SetPosition(0, 0, 1);
    light->SetFocalPoint(0, 0, 0);
    scene.AddLight(light);
}

} // namespace

std::string part_picture(const grid::SheetMesh& mesh, const PartPicture& picture) {
    Canvas canvas(picture.text);
    const double top = round_up(picture.figure.maxCoeff());
    Drawing drawing(canvas.scene(), mesh, picture, top);
    drawing.draw_sheet();
    drawing.draw_lines();
    add_light(canvas.scene());
    add_colour_scale(canvas, {picture.scale_title, top});
    const View view = view_of(picture.positions, canvas.scene_aspect());
    if (!picture.mark.empty()) {
        const double aspect = canvas.scene_aspect();
        const Eigen::Vector2d dot = pixels(view.place(drawing.draw_dot(), aspect));
        add_mark(canvas, dot, picture.mark, covered_places(mesh, picture, view, aspect));
    }
    aim(canvas.scene(), view);
    return canvas.png();
}

} // namespace flangewright::vtk
