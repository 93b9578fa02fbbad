// Can the return lip follow the flange, or must the sheet be annealed first?
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <optional>
#include <span>
#include <string>

namespace flangewright::findings {

/// One or two plain sentences from the edge's stretch with the lip bent, counted from flat and
/// since the sheet was last soft, against what the verdict allows the free edge; nothing without a
/// bent lip. Units: none. Source: as the verdict of the free edge (docs/theory-findings.md,
/// "Verdict"). Fails: never.
[[nodiscard]] std::optional<std::string>
lip_advice(const job::Job& job, std::span<const PartFindings> steps, const Verdict& verdict);

} // namespace flangewright::findings
