// How far a cut edge may be stretched along itself.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <optional>
#include <string>

namespace flangewright::findings {

/// The limit, and in a word or two what it is the limit of: "uniform elongation", "a filed edge".
struct EdgeLimit {
    material::Sourced bears; ///< engineering strain
    std::string what;
};

/// The sheet's own limit for that finish; where it has none, half of its total elongation for a
/// snipped or sawn edge and .8 of it for a filed or polished one, graded `assumed`; its uniform
/// elongation where no finish is stated. Units: strain in -. Source: shares of the elongation:
/// common practice, no source. Fails: empty where the sheet lacks the value.
[[nodiscard]] EdgeLimit
edge_limit(const material::SheetMaterial& sheet, std::optional<material::EdgeFinish> finish);

} // namespace flangewright::findings
