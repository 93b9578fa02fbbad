// Figures at the nodes that fields and pictures derive from the state, without any library.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <optional>

namespace flangewright::vtk {

/// 1 - t/t0. Units: mm in, - out. Source: design words. Fails: never.
[[nodiscard]] Eigen::VectorXd thinning(const job::Job& job, const shell::SheetFields& fields);

/// Movement since the step before; nothing unless this step is a release that follows one.
/// Units: mm. Source: design words. Fails: never.
[[nodiscard]] std::optional<Eigen::Matrix3Xd>
springback(const process::JobResult& result, std::size_t step);

/// Height of the sheet's block face above the block's face plane, in the web; 0 elsewhere.
/// Units: mm. Source: derived here (docs/outputs.md, "Coordinates"). Fails: never.
[[nodiscard]] Eigen::VectorXd
block_gap(const job::Job& job, const grid::SheetMesh& mesh, const process::StepResult& step);

/// The largest of what counts at a node: share of its strain path to a local neck; on cut edges
/// mid-thickness major stretch over what the free edge bears; in the bend the outer fibre's over
/// what the bend bears; thinning over what the drawing allows. Where necks were not looked for the
/// edge's limit stands in everywhere, for orientation. From an anneal on stretches count from
/// there, of cut edges along themselves, a trimmed one along the line it is cut to. Nothing when no
/// limit is known.
/// Units: -. Source: derived here (docs/outputs.md, "share_used"). Fails: never.
[[nodiscard]] std::optional<Eigen::VectorXd>
share_used(const job::Job& job, const process::JobResult& result, std::size_t index);

/// Flat distance past the bend tangent at which the bend ends. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] double bend_width(const grid::SheetMesh& mesh);

} // namespace flangewright::vtk
