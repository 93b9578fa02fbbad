// Lengths and numbers as the printed page and the pictures show them.
#pragma once

#include "io/units/length.hpp"

#include <string>

namespace flangewright::tables {

/// Units: length in mm, result in `unit`. Source: units::mm_per_inch. Fails: never.
[[nodiscard]] double in_unit(double length, units::LengthUnit unit);

/// "mm" or "in". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string unit_word(units::LengthUnit unit);

/// Thickness, radius, gap: "0.80 mm", or "0.032 in (0.81 mm)" for an inch user; "not known" for no
/// number. Units: mm. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string shown_length(double length, units::LengthUnit unit);

/// A length in the user's unit alone, where room is short: "0.80 mm" or "0.032 in"; "not known" for
/// no number. Units: mm. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string brief_length(double length, units::LengthUnit unit);

/// Layout length: as shown_length, for an inch user with the nearest 1/64 in before it:
/// "1 17/64 in (1.262 in, 32.06 mm)". Units: mm. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string shown_layout_length(double length, units::LengthUnit unit);

/// A plain number with so many decimals, never "-0"; "not known" for anything that is no number.
/// Units: as given. Source: none needed. Fails: never.
[[nodiscard]] std::string shown_number(double value, int n_decimals);

/// An error bar to be read beside a number with so many decimals, rounded up to them: 0.031 with
/// one decimal is "0.1". Units: as given. Source: none needed. Fails: never.
[[nodiscard]] std::string shown_error(double error, int n_decimals);

/// Log strain to engineering strain in per cent. Units: - in, % out.
/// Source: definition of log strain, design words. Fails: never.
[[nodiscard]] double stretch_percent(double log_strain);

} // namespace flangewright::tables
