// The one colour map of all pictures: light is little, dark is much, even steps to the eye.
#pragma once

#include <array>

namespace flangewright::vtk {

/// Colour components from 0 to 1, sRGB.
using Colour = std::array<double, 3>;

/// Pale sand (share 0) over blue-green to deep violet (share 1), lightness falling evenly, so it
/// reads in grey print and without colour vision. Shares beyond 0 to 1 take the end colour.
/// Units: none. Source: derived here: a path in CIELAB (ISO/CIE 11664-4) walked at even speed, to
/// sRGB (IEC 61966-2-1), both from memory, to be confirmed. Fails: never.
[[nodiscard]] Colour colour_at(double share);

/// The same colour's place in CIELAB, for tests. Units: none. Source: as colour_at. Fails: never.
[[nodiscard]] std::array<double, 3> lab_at(double share);

} // namespace flangewright::vtk
