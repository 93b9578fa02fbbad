#include "solver/material/hardening_law.hpp"

#include <cmath>

namespace flangewright::material {

HardeningEntry swift_entry();

namespace {

// Swift (1952): stress = K (eps0 + eps_p)^n.
class Swift final : public HardeningLaw {
public:
    Swift(double K, double eps0, double n) : K_(K), eps0_(eps0), n_(n) {}

    [[nodiscard]] FlowStress at(double plastic_strain) const override {
        const double strain = eps0_ + plastic_strain;
        const double stress = K_ * std::pow(strain, n_);
        return {stress, n_ * stress / strain};
    }

private:
    double K_;
    double eps0_;
    double n_;
};

std::shared_ptr<const HardeningLaw> make_swift(const LawValues& values) {
    return std::make_shared<Swift>(
        values.at("strength").front(), values.at("prestrain").front(), values.at("exponent").front()
    );
}

} // namespace

HardeningEntry swift_entry() {
    HardeningEntry entry;
    entry.name = "swift";
    entry.meaning = "stress = strength * (prestrain + plastic strain) ^ exponent";
    entry.parameters = {
        {"strength",
         Quantity::stress,
         false,
         1,
         5000,
         "stress the curve would reach at a strain of 1"},
        {"prestrain", Quantity::strain, false, 1e-6, 0.5, "strain the curve starts from"},
        {"exponent", Quantity::number, false, 0.001, 0.8, "how strongly the sheet hardens (n)"},
    };
    entry.example = {{"strength", {326.8}}, {"prestrain", {0.0012392}}, {"exponent", {0.226}}};
    entry.example_source = "2024-O strength and exponent: public data file, second-hand; prestrain "
                           "set so that flow starts at 72 MPa";
    entry.make = make_swift;
    return entry;
}

} // namespace flangewright::material
