// Lengths as a shop writes them, to and from millimetres.
#pragma once

#include "io/units/written_number.hpp"

#include <string>
#include <string_view>

namespace flangewright::units {

/// The unit of lengths that are written without one.
enum class LengthUnit { millimetre, inch };

/// Millimetres in one inch, exact by definition.
inline constexpr double mm_per_inch = 25.4;

/// Reads "0.8 mm", "0.032 in", "1/32 in", "1 1/4 in", "32 thou", "2 cm", "1.5 m", or a number
/// alone, which is in `unit`. Units: returns mm. Source: 1 in = 25.4 mm, ISO 80000-3.
/// Fails: with what is wrong, in words.
[[nodiscard]] Written read_length(std::string_view text, LengthUnit unit);

/// A number in the file's default unit. Units: returns mm. Source: as read_length. Fails: never.
[[nodiscard]] double length_of(double number, LengthUnit unit);

/// "0.81 mm": up to three digits after the point, no trailing zeros. Units: takes mm.
[[nodiscard]] std::string in_mm(double length);

/// "0.032 in": to a thousandth. Units: takes mm.
[[nodiscard]] std::string in_inch(double length);

/// The next or nearest 1/64 inch as a shop says it: "1 1/4 in". Units: takes mm.
enum class Rounding { nearest, up };
[[nodiscard]] std::string in_inch_fraction(double length, Rounding rounding);

/// In the user's unit first, the other beside it: "0.032 in (0.813 mm)". Units: takes mm.
[[nodiscard]] std::string side_by_side(double length, LengthUnit unit);

} // namespace flangewright::units
