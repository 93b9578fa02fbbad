#include "solver/material/fit/curve_fit.hpp"

#include "mesh/base/check.hpp"

#include <Eigen/Core>
#include <unsupported/Eigen/LevenbergMarquardt>

#include <algorithm>
#include <cmath>

namespace flangewright::material {

namespace {

using Values = Eigen::Vector3d;
using Slopes = Eigen::Matrix<double, 1, 3>;

/// stress = exp(v0) (exp(v1) + p)^v2: the logarithms keep strength and prestrain positive.
struct Swift {
    static constexpr const char* name = "swift";
    static double stress(const Values& v, double p) {
        return std::exp(v[0]) * std::pow(std::exp(v[1]) + p, v[2]);
    }
    static Slopes slopes(const Values& v, double p) {
        const double strain = std::exp(v[1]) + p;
        const double s = stress(v, p);
        return {s, s * v[2] * std::exp(v[1]) / strain, s * std::log(strain)};
    }
    static Values start(const CurvePoints& points) {
        const double first = std::max(points.plastic_strain.front(), 1e-4);
        const double last = points.plastic_strain.back();
        const double n = std::log(points.stress.back() / points.stress.front())
            / std::log(last / std::min(first, 0.5 * last));
        const double exponent = std::clamp(n, 0.02, 0.5);
        return {
            std::log(points.stress.back()) - exponent * std::log(last), std::log(first), exponent};
    }
    static LawValues law_values(const Values& v) {
        return {
            {"strength", {std::exp(v[0])}}, {"prestrain", {std::exp(v[1])}}, {"exponent", {v[2]}}};
    }
};

/// stress = exp(v0) + exp(v1) (1 - exp(-exp(v2) p)): it rises, and from a positive stress.
struct Voce {
    static constexpr const char* name = "voce";
    static double stress(const Values& v, double p) {
        return std::exp(v[0]) + std::exp(v[1]) * (1 - std::exp(-std::exp(v[2]) * p));
    }
    static Slopes slopes(const Values& v, double p) {
        const double rate = std::exp(v[2]);
        const double left = std::exp(-rate * p);
        return {std::exp(v[0]), std::exp(v[1]) * (1 - left), std::exp(v[1]) * left * p * rate};
    }
    static Values start(const CurvePoints& points) {
        const double rise = std::max(points.stress.back() - points.stress.front(), 1.0);
        return {
            std::log(std::max(points.stress.front(), 1.0)),
            std::log(1.2 * rise),
            std::log(2 / points.plastic_strain.back())};
    }
    static LawValues law_values(const Values& v) {
        return {
            {"yield_stress", {std::exp(v[0])}},
            {"saturation_stress", {std::exp(v[0]) + std::exp(v[1])}},
            {"rate", {std::exp(v[2])}}};
    }
};

/// What the matrix library asks of a sum of squares.
template <typename Law>
struct Misses : Eigen::DenseFunctor<double> {
    explicit Misses(const CurvePoints& points)
        : Eigen::DenseFunctor<double>(3, static_cast<int>(points.stress.size())), points_(&points) {
    }

    int operator()(const Eigen::VectorXd& v, Eigen::VectorXd& misses) const {
        for (Eigen::Index i = 0; i < misses.size(); ++i) {
            const auto at = static_cast<std::size_t>(i);
            misses[i] = Law::stress(v, points_->plastic_strain[at]) - points_->stress[at];
        }
        return 0;
    }
    int df(const Eigen::VectorXd& v, Eigen::MatrixXd& slopes) const {
        for (Eigen::Index i = 0; i < slopes.rows(); ++i) {
            slopes.row(i) = Law::slopes(v, points_->plastic_strain[static_cast<std::size_t>(i)]);
        }
        return 0;
    }

private:
    const CurvePoints* points_;
};

const HardeningEntry& entry_of(const std::string& name) {
    const std::span<const HardeningEntry> laws = hardening_laws();
    const auto found = std::ranges::find(laws, name, &HardeningEntry::name);
    check(found != laws.end(), "a law that is fitted is a law of the folder");
    return *found;
}

bool is_allowed(const HardeningEntry& entry, const LawValues& values) {
    return std::ranges::all_of(entry.parameters, [&values](const LawParameter& parameter) {
        const double value = values.at(parameter.name).front();
        return value >= parameter.lowest && value <= parameter.highest; // false for NaN
    });
}

template <typename Law>
void add_fit(const CurvePoints& points, std::vector<CurveFit>& fits) {
    Misses<Law> misses(points);
    Eigen::LevenbergMarquardt<Misses<Law>> search(misses);
    search.setMaxfev(2000);
    Eigen::VectorXd v = Law::start(points);
    search.minimize(v);
    const LawValues values = Law::law_values(v);
    const HardeningEntry& entry = entry_of(Law::name);
    if (!v.allFinite() || !is_allowed(entry, values)) {
        return;
    }
    Eigen::VectorXd left(static_cast<Eigen::Index>(points.stress.size()));
    misses(v, left);
    CurveFit fit;
    fit.curve.law_name = Law::name;
    fit.curve.law_values = values;
    fit.curve.law = entry.make(values);
    fit.curve.fitted_to = StrainRange{points.plastic_strain.front(), points.plastic_strain.back()};
    fit.rms = std::sqrt(left.squaredNorm() / static_cast<double>(left.size()));
    fit.largest = left.cwiseAbs().maxCoeff();
    fits.push_back(std::move(fit));
}

} // namespace

std::vector<CurveFit> fit_curves(const CurvePoints& points) {
    std::vector<CurveFit> fits;
    add_fit<Swift>(points, fits);
    add_fit<Voce>(points, fits);
    return fits;
}

} // namespace flangewright::material
