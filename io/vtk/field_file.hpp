// Shapes and fields as unstructured-grid files that ParaView and other readers open.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::vtk {

/// The bytes of a .vtu file and what had to be left out.
struct FieldFile {
    std::string bytes;
    int n_not_finite = 0; ///< values that were no number and stand as 0
};

/// Flat rest shape of the mid-surface: the mesh lifted by half the thickness onto the block face.
/// Units: mm. Source: docs/outputs.md, "Coordinates". Fails: never.
[[nodiscard]] Eigen::Matrix3Xd flat_positions(const job::Job& job, const grid::SheetMesh& mesh);

/// One finished step with all arrays of docs/outputs.md; `index` counts into result.steps.
/// Units: mm, MPa, strains in -, said by each array's units label. Source: docs/outputs.md.
/// Fails: never.
[[nodiscard]] FieldFile
step_file(const job::Job& job, const process::JobResult& result, std::size_t index);

/// One shape of the animation, with fewer arrays. Units, Source, Fails: as step_file.
[[nodiscard]] FieldFile
frame_file(const job::Job& job, const process::JobResult& result, std::size_t index);

/// The free edge of one step as line cells with strain over station. Units, Source, Fails: as
/// step_file.
[[nodiscard]] FieldFile edge_file(const process::JobResult& result, std::size_t index);

} // namespace flangewright::vtk
