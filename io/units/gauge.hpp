// Old sheet gauge numbers, taken on input and never printed alone.
#pragma once

#include "io/units/written_number.hpp"

namespace flangewright::units {

/// True for "22 gauge" and "22 ga".
[[nodiscard]] bool is_gauge(std::string_view text);

/// Thickness for the gauge numbers of aluminium sheet still met in shops: 22, 20, 18, 16, 14.
/// Steel has other thicknesses under the same numbers. Units: returns mm. Source: glossary of the
/// trade, from memory, to be confirmed. Fails: for any other number, with the ones known.
[[nodiscard]] Written read_gauge(std::string_view text);

} // namespace flangewright::units
