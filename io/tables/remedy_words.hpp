// What would help a part that may split, in plain sentences.
#pragma once

#include "io/units/length.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::tables {

/// The heading these sentences stand under.
inline constexpr const char* remedies_heading = "What would help";

/// The kind in a word for programs: "less_depth", "better_edge". Units: none. Source: none needed.
/// Fails: never.
[[nodiscard]] std::string word_for(process::RemedyKind kind);

/// The change and what it does, best first: "Nose radius 4.50 mm in place of 3.00 mm: 72 % of the
/// limit used, holds." Units: the user's own, %. Source: docs/theory.md, "What would help".
/// Fails: never.
[[nodiscard]] std::vector<std::string>
remedy_lines(const process::Remedies& remedies, units::LengthUnit unit);

/// How it was found and how far it goes, or that nothing helps. Units, source, fails: as above.
[[nodiscard]] std::string remedies_note(const process::Remedies& remedies);

} // namespace flangewright::tables
