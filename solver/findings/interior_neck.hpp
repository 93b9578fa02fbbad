// Does the sheet neck away from its edges and bends: the path of each node against the groove
// analysis.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/findings/membrane_path.hpp"
#include "solver/job/job.hpp"

#include <span>

namespace flangewright::findings {

/// Share of each node's path that is used up, on the sheet's tensile curve and yield law. Paths
/// whose quick share is below a quarter keep that instead of the groove analysis.
/// Units: -. Source: marciniak-kuczynski-1967 (docs/theory-findings.md, "Interior neck").
/// Fails: empty for a material without a hardening curve.
[[nodiscard]] Eigen::VectorXd
neck_shares(const MembranePaths& paths, const material::SheetMaterial& material, int n_threads);

/// The largest share of nodes that lie on no cut edge and in no bend. Strains since the sheet was
/// last soft. `has_lip`: the lip is bent. Units: mm, -. Source: none needed. Fails: empty without
/// such nodes or without shares.
[[nodiscard]] std::optional<NeckFindings> worst_neck(
    const grid::SheetMesh& mesh,
    const job::Job& job,
    const MembranePaths& paths,
    const Eigen::VectorXd& shares,
    bool has_lip
);

/// Grade of a neck worked out from a curve of this material: one below that of the curve, since
/// the groove is assumed. Units: none. Source: common practice, no source. Fails: never.
[[nodiscard]] material::DataGrade neck_grade(const material::SheetMaterial& material);

/// The limit of the worst step for the verdict, its word still open; empty when no step looked for
/// necks. Needed above half the neck's strain: below it no usual groove makes a neck.
/// Units: strain in -. Source: common practice, no source. Fails: never.
[[nodiscard]] std::optional<LimitUse> use_of_interior(std::span<const PartFindings> steps);

/// How the limit above is called.
inline constexpr const char* interior_place = "sheet away from edges and bends";

} // namespace flangewright::findings
