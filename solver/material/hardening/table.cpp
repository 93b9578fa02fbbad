#include "solver/material/hardening_law.hpp"

#include <algorithm>
#include <functional>

namespace flangewright::material {

HardeningEntry table_entry();

namespace {

// Straight lines between measured points; beyond the last point the stress stays as it is there,
// since a measured curve says nothing of what comes after it.
class Table final : public HardeningLaw {
public:
    Table(std::vector<double> strains, std::vector<double> stresses)
        : strains_(std::move(strains)), stresses_(std::move(stresses)) {}

    [[nodiscard]] FlowStress at(double plastic_strain) const override {
        const auto above = std::upper_bound(strains_.begin(), strains_.end(), plastic_strain);
        if (above == strains_.end()) {
            return {stresses_.back(), 0};
        }
        const auto right = std::max<std::ptrdiff_t>(above - strains_.begin(), 1);
        const auto i = static_cast<std::size_t>(right);
        const double slope = (stresses_[i] - stresses_[i - 1]) / (strains_[i] - strains_[i - 1]);
        return {stresses_[i - 1] + slope * (plastic_strain - strains_[i - 1]), slope};
    }

private:
    std::vector<double> strains_;
    std::vector<double> stresses_;
};

std::shared_ptr<const HardeningLaw> make_table(const LawValues& values) {
    return std::make_shared<Table>(values.at("plastic_strain"), values.at("stress"));
}

std::optional<std::pair<std::string, std::string>> table_objection(const LawValues& values) {
    using Objection = std::pair<std::string, std::string>;
    const std::vector<double>& strains = values.at("plastic_strain");
    const std::vector<double>& stresses = values.at("stress");
    if (strains.size() < 2) {
        return Objection{"plastic_strain", "at least two points, since one point makes no curve"};
    }
    if (strains.size() != stresses.size()) {
        return Objection{"stress", "as many stresses as there are plastic strains"};
    }
    if (strains.front() != 0) {
        return Objection{"plastic_strain", "a first value of 0, where flow starts"};
    }
    if (std::adjacent_find(strains.begin(), strains.end(), std::greater_equal<>())
        != strains.end()) {
        return Objection{"plastic_strain", "values that grow from each point to the next"};
    }
    if (!std::is_sorted(stresses.begin(), stresses.end())) {
        return Objection{
            "stress", "values that never fall, since a falling curve has no unique answer"};
    }
    return std::nullopt;
}

} // namespace

HardeningEntry table_entry() {
    HardeningEntry entry;
    entry.name = "table";
    entry.meaning = "measured points of true stress over plastic strain, straight between them, "
                    "level beyond the last";
    entry.parameters = {
        {"plastic_strain", Quantity::strain, true, 0, 5, "true plastic strain of each point"},
        {"stress", Quantity::stress, true, 1, 5000, "true stress of each point"},
    };
    entry.example = {{"plastic_strain", {0, 0.146}}, {"stress", {75.8, 216}}};
    entry.example_source = "2024-O: typical proof stress, and typical tensile strength at an "
                           "assumed uniform elongation of 16 % as true values";
    entry.make = make_table;
    entry.objection = table_objection;
    return entry;
}

} // namespace flangewright::material
