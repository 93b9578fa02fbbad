// How much of the sheet's stretch was used up since it was last made soft.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"
#include "solver/shell/sheet_state.hpp"

#include <Eigen/Core>

namespace flangewright::findings {

/// A shape in which the sheet was soft: per node of the mesh.
struct SoftReference {
    const Eigen::Matrix3Xd& positions; ///< mm
    const Eigen::VectorXd& across_outer_face; ///< log strain square to the bend line
    const Eigen::VectorXd& across_block_face; ///< same
};

/// Lessens the used strains of `part` by what was there when the sheet was soft, place by place.
/// Log strains of one direction add up.
/// Units: log strain in -. Source: derived here (docs/theory-findings.md, "Verdict").
/// Fails: never.
void count_from_soft(
    PartFindings& part,
    const grid::SheetMesh& mesh,
    const job::Job& job,
    const shell::SheetFields& fields,
    const SoftReference& soft
);

} // namespace flangewright::findings
