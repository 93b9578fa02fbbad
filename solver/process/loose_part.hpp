// What is done to a part off its block: the edge is trimmed, the sheet annealed or heat treated.
#pragma once

#include "solver/process/free_balance.hpp"

namespace flangewright::process {

/// The blank with its trim allowance cut away; any other as it is. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] job::Blank without_allowance(job::Blank blank);

/// Cuts the trim allowance away: mesh, shell and state lose what lies beyond the net edge, and the
/// job's flange ends there. The rest keeps its shape and stress, held by `piece.held_by`.
/// Units: mm. Source: docs/theory.md, "Trim, anneal". Fails: never; does nothing without an
/// allowance.
void cut_allowance(Workpiece& piece);

/// Wipes stress and hardening and gives the sheet the material it has afterwards; what shape it was
/// soft in is kept in `piece.soft`. Units: mm, MPa. Source: as cut_allowance(). Fails: never.
void soften(Workpiece& piece, const material::SheetMaterial& afterwards);

/// The part of a step on a loose part that comes before its balance; nothing for other steps.
/// Units, source: as cut_allowance(). Fails: never.
void prepare_step(Workpiece& piece, job::StepKind kind);

} // namespace flangewright::process
