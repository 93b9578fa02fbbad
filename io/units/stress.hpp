// Stresses as a data sheet gives them, to and from MPa.
#pragma once

#include "io/units/length.hpp"

namespace flangewright::units {

/// MPa in one ksi (1000 lbf/in2).
inline constexpr double mpa_per_ksi = 6.894757;

/// Reads "76 MPa", "73.1 GPa", "11 ksi", "11000 psi" or "10.6 Msi". A number alone is MPa in a
/// file whose lengths are in mm; in an inch file the unit must stand there, since MPa and ksi
/// differ by seven and both look right. Units: returns MPa. Source: 1 ksi = 6.894757 MPa,
/// NIST SP 811. Fails: with what is wrong, in words.
[[nodiscard]] Written read_stress(std::string_view text, LengthUnit unit);

/// The same for a bare number. Units: returns MPa. Source, Fails: as above.
[[nodiscard]] Written stress_of(double number, LengthUnit unit);

/// "76 MPa" or "11 ksi", by the file's length unit. Units: takes MPa.
[[nodiscard]] std::string stress_text(double stress, LengthUnit unit);

} // namespace flangewright::units
