#include "solver/findings/strain_since_soft.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/edge_strain.hpp"
#include "solver/findings/part_findings.hpp"

#include <algorithm>
#include <limits>

namespace flangewright::findings {

void count_from_soft(
    PartFindings& part,
    const grid::SheetMesh& mesh,
    const job::Job& job,
    const shell::SheetFields& fields,
    const SoftReference& soft
) {
    const Eigen::VectorXd edge_then =
        edge_strain(mesh, soft.positions, {job.blank.start, job.blank.end});
    check(part.stations.size() == static_cast<std::size_t>(edge_then.size()), "one edge");
    part.edge_tension_used = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < part.stations.size(); ++i) {
        part.edge_tension_used = std::max(
            part.edge_tension_used,
            part.stations[i].edge_strain - edge_then(static_cast<Eigen::Index>(i))
        );
    }
    part.bend_strain_used =
        largest_in_bend(mesh, fields.across_outer_face - soft.across_outer_face, job);
    if (part.lip) {
        const bool is_outer = job.return_bend->side == job::LipSide::under_web;
        part.lip->bend_strain_used = largest_in_lip_bend(
            mesh,
            across_stretched_face_of_lip(fields, job)
                - (is_outer ? soft.across_outer_face : soft.across_block_face),
            job
        );
    }
}

} // namespace flangewright::findings
