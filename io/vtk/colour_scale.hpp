// The bar beside a picture that says which colour is how much.
#pragma once

#include <string>

namespace flangewright::vtk {

class Canvas;

/// From 0 to `top`, in the unit the title names.
struct ColourScale {
    std::string title;
    double top = 1;
    int n_decimals = 1;
};

/// Draws bar, ticks and numbers at the right of the paper. Units: as the title says.
/// Source: none needed. Fails: never.
void add_colour_scale(Canvas& canvas, const ColourScale& scale);

/// A round number not below `value`: 1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a power of ten; 1 for
/// zero, negative and unknown. Units: as given. Source: none needed. Fails: never.
[[nodiscard]] double round_up(double value);

} // namespace flangewright::vtk
