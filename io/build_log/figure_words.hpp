// Compared figures in words: for the page, the terminal and the user's own notes.
#pragma once

#include "io/build_log/comparison.hpp"
#include "io/sheet_page/measured_part.hpp"
#include "io/units/length.hpp"

namespace flangewright::build_log {

/// "springback". Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string name_of(Figure figure);

/// The unit in which notes keep it: "deg", "mm", "percent". Units: none. Source: none needed.
/// Fails: never.
[[nodiscard]] std::string unit_of(Figure figure);

/// From mm, rad or strain into unit_of(). Units: as said. Source: none needed. Fails: never.
[[nodiscard]] double in_own_unit(Figure figure, double value);

/// Rows of the page, by step. Units: the user's own. Source: docs/build-log.md. Fails: never.
[[nodiscard]] std::vector<sheet_page::MeasuredRow>
rows_of(const std::vector<Compared>& all, const Prediction& prediction, units::LengthUnit unit);

} // namespace flangewright::build_log
