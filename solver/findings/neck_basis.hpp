// What the limit of a neck stands on: curve, groove, measured forming limit.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/limits/groove_fit.hpp"

#include <string>

namespace flangewright::findings {

/// Depth of the groove, where it comes from, and how far the computed limit misses what was
/// measured; no point at the end. Units: strains as parts. Source: none needed. Fails: never.
[[nodiscard]] std::string groove_in_words(const limits::GrooveFit& groove);

/// Says of a neck what it stands on: grade, what the limit is worked out from, source. With a
/// groove that is assumed the grade is one below the curve's; with one fitted to a measured forming
/// limit the worse of both, one lower where the computed curve misses a point by more than a fifth.
/// Units: none. Source: common practice, no source. Fails: never.
void say_basis(
    NeckFindings& neck, const material::SheetMaterial& material, const limits::GrooveFit& groove
);

} // namespace flangewright::findings
