// Lengths as the user reads them: mm, or inch with the fraction beside where the shop lays out.
#pragma once

#include <optional>
#include <string>

namespace flangewright::tables {

/// The unit a user writes and reads lengths in.
enum class ShownUnit { mm, inch };

/// Units: length in mm, result in the shown unit. Source: 1 in = 25.4 mm exactly (ISO 80000-3,
/// from memory, to be confirmed). Fails: never.
[[nodiscard]] double in_shown_unit(double length, ShownUnit unit);

/// "mm" or "in". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string unit_word(ShownUnit unit);

/// Thickness, radius, gap: "0.80 mm", or "0.032 in (0.81 mm)". Infinity reads "straight", not a
/// number "not known". Units: mm. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string shown_length(double length, ShownUnit unit);

/// Layout length: as shown_length, with the nearest 1/64 in before it: "1 17/64 in (1.262 in,
/// 32.06 mm)". Units: mm. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string shown_layout_length(double length, ShownUnit unit);

/// A plain number with so many decimals, "-0" never, or "not known" for anything that is no number.
/// Units: as given. Source: none needed. Fails: never.
[[nodiscard]] std::string shown_number(double value, int n_decimals);

/// Rad to degrees. Units: rad in, degrees out. Source: none needed. Fails: never.
[[nodiscard]] double degrees(double angle);

/// Log strain to engineering strain in per cent. Units: - in, % out.
/// Source: definition of log strain, design words. Fails: never.
[[nodiscard]] double stretch_percent(double log_strain);

} // namespace flangewright::tables
