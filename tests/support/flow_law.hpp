// Hardening laws for tests: those of the folder by name, and two that no sheet has.
#pragma once

#include "mesh/base/check.hpp"
#include "solver/material/hardening_law.hpp"

#include <memory>
#include <string>

namespace flangewright::support {

/// A law of solver/material/hardening by its case-file name. MPa, strains in -.
inline std::shared_ptr<const material::HardeningLaw>
flow_law(const std::string& name, const material::LawValues& values) {
    for (const material::HardeningEntry& entry : material::hardening_laws()) {
        if (entry.name == name) {
            return entry.make(values);
        }
    }
    check(false, "the law named in a test exists");
    return nullptr;
}

/// Swift's law, K (eps0 + p)^n. MPa, strains in -.
inline std::shared_ptr<const material::HardeningLaw> swift(double K, double eps0, double n) {
    return flow_law("swift", {{"strength", {K}}, {"prestrain", {eps0}}, {"exponent", {n}}});
}

/// Flow at one stress for ever, MPa.
class PerfectFlow final : public material::HardeningLaw {
public:
    explicit PerfectFlow(double flow) : flow_(flow) {}
    [[nodiscard]] material::FlowStress at(double /*plastic_strain*/) const override {
        return {flow_, 0};
    }

private:
    double flow_;
};

/// Flow stress that grows evenly, MPa.
class LinearFlow final : public material::HardeningLaw {
public:
    LinearFlow(double flow, double slope) : flow_(flow), slope_(slope) {}
    [[nodiscard]] material::FlowStress at(double plastic_strain) const override {
        return {flow_ + slope_ * plastic_strain, slope_};
    }

private:
    double flow_;
    double slope_;
};

/// Never flows.
inline std::shared_ptr<const material::HardeningLaw> endless_elasticity() {
    return std::make_shared<PerfectFlow>(1e30);
}

} // namespace flangewright::support
