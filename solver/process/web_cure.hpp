// Which way to work the flange's edge so that the web of the released part sits flat.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/workpiece.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace flangewright::process {

/// When a cure is looked for, and what may be asked for.
struct CureChoice {
    /// Web lift from which on it is worth the work: a feeler of 0.010 in. Common practice, no
    /// source.
    double smallest_lift = 0.254; ///< mm
    double most = 0.03; ///< put into a zone, engineering
    double least_named = 2e-4; ///< smaller amounts are left out
};

/// Place of the last step that leaves a free part whose edge can still be worked: released, trimmed
/// or annealed, before a lip takes the edge or heat treatment the softness; nothing when there is
/// none. Units: none. Source: common practice, no source. Fails: never.
[[nodiscard]] std::optional<std::size_t> workable_step(const std::vector<job::StepKind>& steps);

/// Finds small stretches and shrinks of the edge, zone by zone, that make the web flat, works them
/// into a copy of the part and reads what they do. The piece is free and in balance, and is so
/// again afterwards, unchanged. Units: mm, rad, -. Source: docs/theory.md, "Cure of the web".
/// Fails: empty for a lift below the smallest, for a part that finds no balance, and on a stop
/// request.
[[nodiscard]] std::optional<WebCure>
find_web_cure(Workpiece& piece, const CureChoice& choice, const Monitor& monitor);

} // namespace flangewright::process
