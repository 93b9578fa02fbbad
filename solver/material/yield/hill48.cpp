#include "solver/material/yield_law.hpp"

#include <cmath>

namespace flangewright::material {

YieldEntry hill48_entry();

namespace {

// Source: hill-1948, plane stress: (G + H) sx^2 - 2 H sx sy + (F + H) sy^2 + 2 N sxy^2, with
// G + H = 1, so that tension along the rolling direction follows the hardening curve.
class Hill48 final : public YieldLaw {
public:
    Hill48(double r0, double r45, double r90) {
        const double F = r0 / (r90 * (1 + r0));
        const double H = r0 / (1 + r0);
        const double N = (r0 + r90) * (1 + 2 * r45) / (2 * r90 * (1 + r0));
        P_ << 1, -H, 0, -H, F + H, 0, 0, 0, 2 * N;
    }

    [[nodiscard]] double stress(const RollingStress& s) const override {
        return std::sqrt(s.dot(P_ * s));
    }

    [[nodiscard]] YieldPoint at(const RollingStress& s) const override {
        YieldPoint point;
        point.stress = stress(s);
        if (point.stress > 0) {
            point.gradient = P_ * s / point.stress;
            point.curvature = (P_ - point.gradient * point.gradient.transpose()) / point.stress;
        }
        return point;
    }

private:
    Eigen::Matrix3d P_;
};

std::shared_ptr<const YieldLaw> make_hill48(const LawValues& values) {
    const auto r = [&values](const char* key) { return values.at(key).front(); };
    return std::make_shared<Hill48>(r("r0"), r("r45"), r("r90"));
}

} // namespace

YieldEntry hill48_entry() {
    const auto r_value = [](const char* name, const char* where) {
        return LawParameter{
            name,
            Quantity::number,
            false,
            0.05,
            20,
            std::string("width strain over thickness strain in tension ") + where
                + " the rolling direction"};
    };
    YieldEntry entry;
    entry.name = "hill48";
    entry.meaning = "three r values decide; the yield stress over the angle follows from them";
    entry.parameters = {
        r_value("r0", "along"), r_value("r45", "at 45 degrees to"), r_value("r90", "across")};
    entry.example = {{"r0", {0.65}}, {"r45", {0.83}}, {"r90", {0.60}}};
    entry.example_source = "2024-O: a public script that names no source";
    entry.make = make_hill48;
    return entry;
}

} // namespace flangewright::material
