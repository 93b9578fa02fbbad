// The bar beside a picture that says which colour is how much.
#pragma once

#include <string>

namespace flangewright::vtk {

class Canvas;

/// From 0 to `top`, in the unit the title names.
struct ColourScale {
    std::string title;
    double top = 1; ///< a number from round_up()
};

/// Draws bar, ticks and numbers at the right of the paper. Units: as the title says.
/// Source: none needed. Fails: never.
void add_colour_scale(Canvas& canvas, const ColourScale& scale);

/// Into how many equal steps a scale up to a number from round_up() is cut, so that every mark is a
/// round number. Units: none. Source: none needed. Fails: 4 for any other number.
[[nodiscard]] int n_scale_steps(double top);

/// Decimals that a round step needs: 0 for 5, 1 for 0.2. Units: as given. Source: none needed.
/// Fails: never.
[[nodiscard]] int n_decimals_for(double step);

/// A round number not below `value`: 1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a power of ten; 1 for
/// zero, negative and unknown. Units: as given. Source: none needed. Fails: never.
[[nodiscard]] double round_up(double value);

} // namespace flangewright::vtk
