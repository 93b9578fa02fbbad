#include "solver/material/back_stress.hpp"

#include <cmath>
#include <utility>
#include <vector>

namespace flangewright::material {

namespace {

class SteadyFlow final : public HardeningLaw {
public:
    SteadyFlow(std::shared_ptr<const HardeningLaw> isotropic, std::span<const BackStress> shifts)
        : isotropic_(std::move(isotropic)), shifts_(shifts.begin(), shifts.end()) {}

    [[nodiscard]] FlowStress at(double plastic_strain) const override {
        const FlowStress size = isotropic_->at(plastic_strain);
        const FlowStress shift = steady_back_stress(shifts_, plastic_strain);
        return {size.stress + shift.stress, size.slope + shift.slope};
    }

private:
    std::shared_ptr<const HardeningLaw> isotropic_;
    std::vector<BackStress> shifts_;
};

} // namespace

FlowStress steady_back_stress(std::span<const BackStress> back_stresses, double plastic_strain) {
    FlowStress sum;
    for (const BackStress& back : back_stresses) {
        const double fade = std::exp(-back.recall * plastic_strain);
        sum.slope += back.stiffness * fade;
        sum.stress += back.recall > 0
            ? -back.stiffness / back.recall * std::expm1(-back.recall * plastic_strain)
            : back.stiffness * plastic_strain;
    }
    return sum;
}

std::shared_ptr<const HardeningLaw> steady_flow(
    std::shared_ptr<const HardeningLaw> isotropic, std::span<const BackStress> back_stresses
) {
    if (back_stresses.empty()) {
        return isotropic;
    }
    return std::make_shared<SteadyFlow>(std::move(isotropic), back_stresses);
}

} // namespace flangewright::material
