// Where through the thickness the material is asked, and with what weight.
#pragma once

#include <vector>

namespace flangewright::shell {

/// Gauss-Legendre layers over z in [-1/2, 1/2] of the thickness; weights sum to 1.
struct LayerRule {
    std::vector<double> position; ///< rising, over thickness
    std::vector<double> weight;
};

/// An even number has no layer on the neutral fibre, which would stay elastic and pin it.
/// Units: -. Shape: n_layers. Source: abramowitz-stegun-1964, 25.4.29. Fails: never for 1 to 64.
[[nodiscard]] LayerRule gauss_layers(int n_layers);

} // namespace flangewright::shell
