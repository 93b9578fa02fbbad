#include "io/vtk/field_file.hpp"

#include "io/tables/cut_edge.hpp"
#include "io/vtk/node_figures.hpp"

#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkDoubleArray.h>
#include <vtkFloatArray.h>
#include <vtkInformation.h>
#include <vtkInformationStringKey.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnsignedCharArray.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::vtk {

namespace {

/// Gathers points, cells and arrays, and counts what was no number.
class FileMaker {
public:
    explicit FileMaker(const Eigen::Matrix3Xd& positions) {
        vtkNew<vtkDoubleArray> values;
        values->SetNumberOfComponents(3);
        fill(*values, positions);
        say_unit(*values, "mm");
        vtkNew<vtkPoints> points;
        points->SetDataTypeToDouble();
        points->SetData(values);
        grid_->SetPoints(points);
    }

    void add_cells(const std::vector<std::array<int, 4>>& quads) {
        grid_->AllocateEstimate(static_cast<vtkIdType>(quads.size()), 4);
        for (const std::array<int, 4>& quad : quads) {
            const std::array<vtkIdType, 4> ids{quad[0], quad[1], quad[2], quad[3]};
            grid_->InsertNextCell(VTK_QUAD, 4, ids.data());
        }
    }

    /// Lines of points that follow each other.
    void add_chains(const std::vector<std::vector<int>>& lines) {
        for (const std::vector<int>& line : lines) {
            for (std::size_t i = 0; i + 1 < line.size(); ++i) {
                const std::array<vtkIdType, 2> ids{line[i], line[i + 1]};
                grid_->InsertNextCell(VTK_LINE, 2, ids.data());
            }
        }
    }

    /// One column per point. A field that the run did not fill is left out.
    void add(const std::string& name, const std::string& unit, const Eigen::MatrixXd& field) {
        if (field.cols() != grid_->GetNumberOfPoints()) {
            return;
        }
        vtkNew<vtkFloatArray> values;
        values->SetName(name.c_str());
        values->SetNumberOfComponents(static_cast<int>(field.rows()));
        fill(*values, field);
        grid_->GetPointData()->AddArray(values);
        say_unit(*values, unit);
    }

    void add(const std::string& name, const std::string& unit, const Eigen::VectorXd& field) {
        add(name, unit, Eigen::MatrixXd(field.transpose()));
    }

    void add_region(const grid::SheetMesh& mesh) {
        vtkNew<vtkUnsignedCharArray> regions;
        regions->SetName("region");
        const double bend_end = bend_width(mesh);
        for (const std::array<int, 4>& quad : mesh.quads) {
            double distance = 0;
            for (const int node : quad) {
                distance += 0.25 * mesh.distance(node);
            }
            regions->InsertNextValue(distance < 0 ? 0 : (distance < bend_end ? 1 : 2));
        }
        grid_->GetCellData()->AddArray(regions);
        say_unit(*regions, "0 web, 1 bend, 2 flange");
    }

    FieldFile write() {
        vtkNew<vtkXMLUnstructuredGridWriter> writer;
        writer->SetInputData(grid_);
        // Inline: appended data can't be read by VTK 9.1 and ParaView 5.11 on top of Debian's
        // present expat (2.5.0-1+deb12u2), which puts off what it has not read to the end.
        writer->SetDataModeToBinary();
        writer->SetCompressorTypeToZLib();
        writer->WriteToOutputStringOn();
        writer->Write();
        return {writer->GetOutputString(), n_not_finite_};
    }

private:
    static void say_unit(vtkDataArray& values, const std::string& unit) {
        values.GetInformation()->Set(vtkDataArray::UNITS_LABEL(), unit.c_str());
    }

    template <typename Array>
    void fill(Array& values, const Eigen::MatrixXd& field) {
        using Value = typename Array::ValueType;
        values.SetNumberOfTuples(static_cast<vtkIdType>(field.cols()));
        for (Eigen::Index column = 0; column < field.cols(); ++column) {
            for (Eigen::Index row = 0; row < field.rows(); ++row) {
                const double value = field(row, column);
                n_not_finite_ += std::isfinite(value) ? 0 : 1;
                values.SetTypedComponent(
                    column,
                    static_cast<int>(row),
                    std::isfinite(value) ? static_cast<Value>(value) : Value(0)
                );
            }
        }
    }

    vtkNew<vtkUnstructuredGrid> grid_;
    int n_not_finite_ = 0;
};

void add_strains(FileMaker& file, const shell::SheetFields& fields) {
    file.add("plastic_strain", "- (largest over the thickness)", fields.plastic_strain);
    file.add("major_strain_mid", "- (log)", fields.major_mid);
    file.add("minor_strain_mid", "- (log)", fields.minor_mid);
    file.add("major_strain_block_face", "- (log)", fields.major_block_face);
    file.add("minor_strain_block_face", "- (log)", fields.minor_block_face);
    file.add("major_strain_outer_face", "- (log)", fields.major_outer_face);
    file.add("minor_strain_outer_face", "- (log)", fields.minor_outer_face);
}

void add_stresses(FileMaker& file, const shell::SheetFields& fields) {
    const std::string meaning = "MPa (along the bend line, across it, shear)";
    file.add("stress_block_face", meaning, Eigen::MatrixXd(fields.stress_block_face));
    file.add("stress_outer_face", meaning, Eigen::MatrixXd(fields.stress_outer_face));
    file.add(
        "across_strain_outer_face", "- (log, square to the bend line)", fields.across_outer_face
    );
    file.add(
        "across_strain_block_face", "- (log, square to the bend line)", fields.across_block_face
    );
}

void add_places(FileMaker& file, const grid::SheetMesh& mesh) {
    file.add("station", "mm (along the bend line)", mesh.station);
    file.add("distance", "mm (flat, past the bend tangent; web negative)", mesh.distance);
    file.add_region(mesh);
}

} // namespace

Eigen::Matrix3Xd flat_positions(const job::Job& job, const grid::SheetMesh& mesh) {
    return mesh.positions.colwise() + Eigen::Vector3d(0, 0, 0.5 * job.sheet.thickness);
}

FieldFile step_file(const job::Job& job, const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const grid::SheetMesh& mesh = process::mesh_of(result, index);
    FileMaker file(step.state.positions);
    file.add_cells(mesh.quads);
    const Eigen::Matrix3Xd moved = step.state.positions - flat_positions(job, mesh);
    file.add("displacement", "mm (since flat)", Eigen::MatrixXd(moved));
    file.add("thickness", "mm", step.fields.thickness);
    file.add("thinning", "- (1 - t/t0)", thinning(job, step.fields));
    add_strains(file, step.fields);
    add_stresses(file, step.fields);
    file.add(
        "outer_normal",
        "- (unit vector, block face to outer face)",
        Eigen::MatrixXd(step.state.directors)
    );
    file.add(
        "block_gap",
        "mm (block face of the web above the block; 0 outside the web)",
        block_gap(job, mesh, step)
    );
    if (const std::optional<Eigen::VectorXd> share = share_used(job, result, index)) {
        file.add("share_used", "- (stretch over allowed stretch)", *share);
    }
    if (const std::optional<Eigen::Matrix3Xd> moved_back = springback(result, index)) {
        file.add("springback", "mm (since the end of the bend-down)", Eigen::MatrixXd(*moved_back));
    }
    add_places(file, mesh);
    return file.write();
}

FieldFile frame_file(const job::Job& job, const process::JobResult& result, std::size_t index) {
    const process::Frame& frame = result.history[index];
    const grid::SheetMesh& mesh =
        process::mesh_of(result, static_cast<std::size_t>(std::max(frame.step, 0)));
    FileMaker file(frame.positions);
    file.add_cells(mesh.quads);
    const Eigen::Matrix3Xd moved = frame.positions - flat_positions(job, mesh);
    file.add("displacement", "mm (since flat)", Eigen::MatrixXd(moved));
    file.add("thickness", "mm", frame.fields.thickness);
    file.add("thinning", "- (1 - t/t0)", thinning(job, frame.fields));
    add_strains(file, frame.fields);
    return file.write();
}

FieldFile edge_file(const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const tables::CutEdge edge = tables::cut_edge(result, index);
    const std::vector<tables::CutEdgeNode>& nodes = edge.nodes;
    const auto n = static_cast<Eigen::Index>(nodes.size());
    Eigen::Matrix3Xd positions(3, n);
    Eigen::VectorXd station(n);
    Eigen::VectorXd strain(n);
    Eigen::VectorXd thickness(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const tables::CutEdgeNode& at = nodes[static_cast<std::size_t>(i)];
        positions.col(i) = step.state.positions.col(at.node);
        station(i) = at.station;
        strain(i) = at.strain;
        thickness(i) = at.thickness;
    }
    FileMaker file(positions);
    file.add_chains(edge.lines);
    file.add("station", "mm (along the bend line)", station);
    file.add("edge_strain", "- (log, along the edge)", strain);
    file.add("edge_thickness", "mm", thickness);
    return file.write();
}

} // namespace flangewright::vtk
