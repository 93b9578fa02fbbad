#include "io/vtk/field_reader.hpp"

#include <vtkCellType.h>
#include <vtkDataArray.h>
#include <vtkIdList.h>
#include <vtkNew.h>
#include <vtkObject.h>
#include <vtkPointData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

namespace flangewright::vtk {

namespace {

bool read_quads(vtkUnstructuredGrid& grid, ReadShape& shape) {
    vtkNew<vtkIdList> ids;
    for (vtkIdType cell = 0; cell < grid.GetNumberOfCells(); ++cell) {
        grid.GetCellPoints(cell, ids);
        if (grid.GetCellType(cell) != VTK_QUAD || ids->GetNumberOfIds() != 4) {
            return false;
        }
        std::array<int, 4>& quad = shape.quads.emplace_back();
        for (int i = 0; i < 4; ++i) {
            quad.at(static_cast<std::size_t>(i)) = static_cast<int>(ids->GetId(i));
        }
    }
    return !shape.quads.empty();
}

} // namespace

std::optional<ReadShape> read_shape(const std::filesystem::path& file, const std::string& figure) {
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(file, ignored)) {
        return std::nullopt;
    }
    vtkObject::GlobalWarningDisplayOff(); // what is wrong with a file is ours to say
    vtkNew<vtkXMLUnstructuredGridReader> reader;
    reader->SetFileName(file.c_str());
    reader->Update();
    vtkUnstructuredGrid* grid = reader->GetOutput();
    vtkDataArray* values =
        grid == nullptr ? nullptr : grid->GetPointData()->GetArray(figure.c_str());
    ReadShape shape;
    if (values == nullptr || !read_quads(*grid, shape)) {
        return std::nullopt;
    }
    const vtkIdType n = grid->GetNumberOfPoints();
    shape.positions.resize(3, n);
    shape.figure.resize(n);
    for (vtkIdType i = 0; i < n; ++i) {
        grid->GetPoint(i, shape.positions.col(i).data());
        shape.figure[i] = values->GetComponent(i, 0);
    }
    return shape;
}

} // namespace flangewright::vtk
