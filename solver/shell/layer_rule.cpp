#include "solver/shell/layer_rule.hpp"

#include "mesh/base/check.hpp"

#include <cmath>
#include <numbers>

namespace flangewright::shell {

LayerRule gauss_layers(int n_layers) {
    check(n_layers >= 1 && n_layers <= 64, "the number of layers lies between 1 and 64");
    const auto n = static_cast<std::size_t>(n_layers);
    LayerRule rule{std::vector<double>(n), std::vector<double>(n)};
    for (int i = 0; i < n_layers; ++i) {
        double x = -std::cos(std::numbers::pi * (i + 0.75) / (n_layers + 0.5));
        double slope = 1;
        for (int newton = 0; newton < 50; ++newton) {
            double before = 1;
            double value = x;
            for (int k = 2; k <= n_layers; ++k) {
                const double next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
                before = value;
                value = next;
            }
            slope = n_layers == 1 ? 1 : n_layers * (x * value - before) / (x * x - 1);
            const double change = value / slope;
            x -= change;
            if (std::abs(change) < 1e-15) {
                break;
            }
        }
        const auto at = static_cast<std::size_t>(i);
        rule.position[at] = 0.5 * x;
        rule.weight[at] = n_layers == 1 ? 1 : 1 / ((1 - x * x) * slope * slope);
    }
    return rule;
}

} // namespace flangewright::shell
