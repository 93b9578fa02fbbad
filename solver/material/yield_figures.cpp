#include "solver/material/yield_figures.hpp"

#include <cmath>

namespace flangewright::material {

DirectionalTension tension_at(const YieldLaw& law, double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const YieldPoint point = law.at({c * c, s * s, c * s});
    const Eigen::Vector3d& rate = point.gradient; // the last is twice the tensor's shear
    const double across = s * s * rate[0] + c * c * rate[1] - c * s * rate[2];
    return {1 / point.stress, -across / (rate[0] + rate[1])};
}

BiaxialTension biaxial_tension(const YieldLaw& law) {
    const YieldPoint point = law.at({1, 1, 0});
    return {1 / point.stress, point.gradient[1] / point.gradient[0]};
}

} // namespace flangewright::material
