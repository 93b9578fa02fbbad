// Jobs that tests of findings share: the cases of the independent solid model.
#pragma once

#include "mesh/base/check.hpp"
#include "solver/job/job.hpp"

#include <cmath>
#include <functional>
#include <memory>
#include <numbers>
#include <utility>

namespace flangewright::support {

inline constexpr double degree = std::numbers::pi / 180;

/// A hardening law from a plain function of the plastic strain; its slope is not used here.
class FunctionLaw final : public material::HardeningLaw {
public:
    explicit FunctionLaw(std::function<double(double)> flow) : flow_(std::move(flow)) {}
    [[nodiscard]] material::FlowStress at(double plastic_strain) const override {
        return {flow_(plastic_strain), 0};
    }

private:
    std::function<double(double)> flow_;
};

/// A material with elastic constants and a flow curve.
inline material::SheetMaterial
material_with(double E, double nu, std::function<double(double)> flow) {
    material::SheetMaterial material;
    material.youngs_modulus = E;
    material.poisson_ratio = nu;
    material.hardening = std::make_shared<FunctionLaw>(std::move(flow));
    return material;
}

/// Soft material M1 of the solid model: Swift 330 (0.0032 + p)^0.22.
inline material::SheetMaterial soft_material() {
    return material_with(70000, 0.33, [](double p) { return 330 * std::pow(0.0032 + p, 0.22); });
}

/// Case S1 of the solid model (straight, flat width 20) with another bend line or nothing changed.
inline job::Job straight_job() {
    job::Job job;
    job.sheet.material = soft_material();
    job.sheet.thickness = 1;
    job.blank.line = outline::BendLine::straight(60);
    job.blank.web_width = 30;
    job.blank.flange_width = 20;
    job.block.nose_radius = 3;
    job.drive.corner_radius = 3;
    return job;
}

/// Case A2 of the solid model: wall of radius 60 (bend tangent line 63), flat width 12.
inline job::Job ring_job() {
    job::Job job = straight_job();
    job.blank.line = outline::BendLine::arc(63, 1.0, outline::Curve::concave);
    job.blank.web_width = 37;
    job.blank.flange_width = 12;
    return job;
}

} // namespace flangewright::support
