#include "solver/material/scaled_hardening.hpp"

#include <utility>

namespace flangewright::material {

namespace {

class Scaled final : public HardeningLaw {
public:
    Scaled(std::shared_ptr<const HardeningLaw> law, double yield, double rise)
        : law_(std::move(law)), offset_((yield - rise) * law_->at(0).stress), rise_(rise) {}

    [[nodiscard]] FlowStress at(double plastic_strain) const override {
        const FlowStress flow = law_->at(plastic_strain);
        return {offset_ + rise_ * flow.stress, rise_ * flow.slope};
    }

private:
    std::shared_ptr<const HardeningLaw> law_;
    double offset_;
    double rise_;
};

} // namespace

std::shared_ptr<const HardeningLaw>
scaled_hardening(std::shared_ptr<const HardeningLaw> law, double yield, double rise) {
    return std::make_shared<const Scaled>(std::move(law), yield, rise);
}

} // namespace flangewright::material
