// Shares and elongations as per cent.
#pragma once

#include "io/units/written_number.hpp"

namespace flangewright::units {

/// Reads "16 %". A number without the sign is refused, since 0.8 could be 80 % or 0.8 %.
/// Units: returns a plain fraction, 0.16. Source: definition. Fails: with what is wrong, in words.
[[nodiscard]] Written read_percent(std::string_view text);

/// "16.5 %" with up to `digits` after the point. Units: takes a plain fraction.
[[nodiscard]] std::string percent_text(double fraction, int digits);

} // namespace flangewright::units
