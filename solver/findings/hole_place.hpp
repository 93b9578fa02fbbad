// Where the holes of a flange have come to lie on the formed part.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/part_shape.hpp"
#include "solver/job/job.hpp"

#include <vector>

namespace flangewright::findings {

/// A hole in the formed flange. mm.
struct FormedHole {
    int number = 1; ///< as in the case, from 1
    double station = 0; ///< along the bend line, of its centre
    double depth = 0; ///< outside face of the web to its centre, along the flange
    double least_diameter = 0; ///< along the chord
    double most_diameter = 0;
};

/// Those of the mesh's holes that lie past the bend tangent, in the order of the case. The centre
/// is the mean of the rim's nodes; its depth is read as flange_depth() reads the edge's, on the
/// station nearest to it. `job` as its steps have left it (a trim takes its allowance off). Units:
/// mm. Source: derived here (docs/templates.md, "Holes, notches and tabs"). Fails: never.
[[nodiscard]] std::vector<FormedHole>
formed_holes(const grid::SheetMesh& mesh, const PartShape& shape, const job::Job& job);

} // namespace flangewright::findings
