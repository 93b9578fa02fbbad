#include "solver/material/yield_law.hpp"

#include <cmath>

namespace flangewright::material {

YieldEntry von_mises_entry();

namespace {

// The same in all directions. The sheet's own update of it is faster (plane_stress_update); this
// one is for whoever asks any law.
class VonMises final : public YieldLaw {
public:
    [[nodiscard]] double stress(const RollingStress& s) const override {
        return std::sqrt(s[0] * s[0] - s[0] * s[1] + s[1] * s[1] + 3 * s[2] * s[2]);
    }

    [[nodiscard]] YieldPoint at(const RollingStress& s) const override {
        YieldPoint point;
        point.stress = stress(s);
        if (point.stress > 0) {
            Eigen::Matrix3d P;
            P << 1, -0.5, 0, -0.5, 1, 0, 0, 0, 3;
            point.gradient = P * s / point.stress;
            point.curvature = (P - point.gradient * point.gradient.transpose()) / point.stress;
        }
        return point;
    }
};

std::shared_ptr<const YieldLaw> make_von_mises(const LawValues& /*values*/) {
    return std::make_shared<VonMises>();
}

} // namespace

YieldEntry von_mises_entry() {
    YieldEntry entry;
    entry.name = "von_mises";
    entry.meaning = "the same in all directions of the sheet and through its thickness";
    entry.example_source = "closed form";
    entry.make = make_von_mises;
    return entry;
}

} // namespace flangewright::material
