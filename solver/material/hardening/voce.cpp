#include "solver/material/hardening_law.hpp"

#include <cmath>

namespace flangewright::material {

HardeningEntry voce_entry();

namespace {

// Voce (1948): stress = sigma_sat - (sigma_sat - sigma_0) exp(-C eps_p).
class Voce final : public HardeningLaw {
public:
    Voce(double sigma_0, double sigma_sat, double C)
        : sigma_sat_(sigma_sat), span_(sigma_sat - sigma_0), C_(C) {}

    [[nodiscard]] FlowStress at(double plastic_strain) const override {
        const double left = span_ * std::exp(-C_ * plastic_strain);
        return {sigma_sat_ - left, C_ * left};
    }

private:
    double sigma_sat_;
    double span_;
    double C_;
};

std::shared_ptr<const HardeningLaw> make_voce(const LawValues& values) {
    return std::make_shared<Voce>(
        values.at("yield_stress").front(),
        values.at("saturation_stress").front(),
        values.at("rate").front()
    );
}

std::optional<std::pair<std::string, std::string>> voce_objection(const LawValues& values) {
    if (values.at("saturation_stress").front() < values.at("yield_stress").front()) {
        return std::pair<std::string, std::string>{
            "saturation_stress",
            "at least the yield stress, since a sheet that softens from the start can't be formed"};
    }
    return std::nullopt;
}

} // namespace

HardeningEntry voce_entry() {
    HardeningEntry entry;
    entry.name = "voce";
    entry.meaning = "stress = saturation stress - (saturation stress - yield stress) "
                    "* exp(-rate * plastic strain)";
    entry.parameters = {
        {"yield_stress", Quantity::stress, false, 1, 3000, "true stress at which flow starts"},
        {"saturation_stress", Quantity::stress, false, 1, 5000, "true stress the curve rises to"},
        {"rate", Quantity::number, false, 0.1, 500, "how soon the curve levels out"},
    };
    entry.example = {{"yield_stress", {76}}, {"saturation_stress", {229}}, {"rate", {16.6}}};
    entry.example_source = "2024-O: from typical proof stress, tensile strength and an assumed "
                           "uniform elongation of 16 % by the maximum-load condition";
    entry.make = make_voce;
    entry.objection = voce_objection;
    return entry;
}

} // namespace flangewright::material
