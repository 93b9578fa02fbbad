// Does the sheet neck away from its edges and bends: the path of each node against the groove
// analysis.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/findings/membrane_path.hpp"
#include "solver/job/job.hpp"
#include "solver/limits/groove_fit.hpp"

#include <span>

namespace flangewright::findings {

/// Share of each node's path that is used up, on the curve and with the groove of fit_groove() and
/// the sheet's yield law. Paths whose quick share is below a quarter keep that instead of the
/// groove analysis.
/// Units: -. Source: marciniak-kuczynski-1967 (docs/theory-findings.md, "Interior neck").
/// Fails: empty for a material without a hardening curve.
[[nodiscard]] Eigen::VectorXd neck_shares(
    const MembranePaths& paths,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove,
    int n_threads
);

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

/// Sets the share on another law of the sheet beside that of a neck that governs or is near (from a
/// half), where the groove is assumed. `path`: strain increments of the neck's node. Units: -.
/// Source: as neck_shares(). Fails: leaves it empty where the sheet has no other law.
void set_beside(
    NeckFindings& neck,
    std::span<const Eigen::Vector3d> path,
    const material::SheetMaterial& material,
    const limits::GrooveFit& groove
);

/// The limit of the worst step for the verdict, its word still open; empty when no step looked for
/// necks. Needed above half the neck's strain: below it no usual groove makes a neck.
/// Units: strain in -. Source: common practice, no source. Fails: never.
[[nodiscard]] std::optional<LimitUse> use_of_interior(std::span<const PartFindings> steps);

/// How the limit above is called.
inline constexpr const char* interior_place = "sheet away from edges and bends";

} // namespace flangewright::findings
