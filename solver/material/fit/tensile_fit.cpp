#include "solver/material/fit/tensile_fit.hpp"

#include "solver/material/fit/straight_line.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace flangewright::material {

namespace {

constexpr double near_top = 0.99; ///< share of the largest load that the parabola takes in
constexpr std::size_t n_near_top_least = 5;
constexpr std::size_t n_curve_least = 8; ///< points that three parameters are fitted to

struct Top {
    double stress = 0;
    std::optional<double> strain; ///< empty: not reached
};

/// Vertex of the parabola through the points near the largest load. Noise alone can't make it, as
/// the largest single point would.
Top top_of(const TensileTest& test, std::size_t first) {
    const double most = *std::ranges::max_element(test.stress);
    std::vector<std::size_t> near;
    for (std::size_t i = first; i < test.stress.size(); ++i) {
        if (test.stress[i] >= near_top * most) {
            near.push_back(i);
        }
    }
    if (near.size() < n_near_top_least) {
        return {most, std::nullopt};
    }
    const double middle = test.strain[near[near.size() / 2]];
    Eigen::MatrixX3d powers(static_cast<Eigen::Index>(near.size()), 3);
    Eigen::VectorXd stress(powers.rows());
    for (Eigen::Index k = 0; k < powers.rows(); ++k) {
        const std::size_t i = near[static_cast<std::size_t>(k)];
        const double x = test.strain[i] - middle;
        powers.row(k) << 1, x, x * x;
        stress[k] = test.stress[i];
    }
    const Eigen::Vector3d parabola = powers.colPivHouseholderQr().solve(stress);
    const double vertex = middle - parabola[1] / (2 * parabola[2]);
    const bool is_passed =
        parabola[2] < 0 && vertex > test.strain[near.front()] && vertex < test.strain.back();
    if (!is_passed) {
        return {most, std::nullopt};
    }
    return {parabola[0] - parabola[1] * parabola[1] / (4 * parabola[2]), vertex};
}

/// The record as true values, its elastic part taken off.
struct TrueCurve {
    std::vector<double> engineering; ///< strain from the corrected zero
    std::vector<double> plastic_strain;
    std::vector<double> stress;
};

TrueCurve true_curve(const TensileTest& test, const ElasticPart& elastic) {
    TrueCurve curve;
    for (std::size_t i = 0; i < test.strain.size(); ++i) {
        const double strain = test.strain[i] - elastic.first_strain;
        const double stress = test.stress[i] * (1 + strain);
        curve.engineering.push_back(strain);
        curve.stress.push_back(stress);
        curve.plastic_strain.push_back(std::log1p(strain) - stress / elastic.slope);
    }
    return curve;
}

CurvePoints points_between(const TrueCurve& curve, std::size_t first, double last_strain) {
    CurvePoints points;
    for (std::size_t i = first; i < curve.engineering.size(); ++i) {
        if (curve.engineering[i] <= last_strain && curve.plastic_strain[i] > 0) {
            points.plastic_strain.push_back(curve.plastic_strain[i]);
            points.stress.push_back(curve.stress[i]);
        }
    }
    return points;
}

StrainRange usual_range(double uniform) {
    const double most = std::min(0.2, uniform);
    return {most < 0.15 ? 0.5 * most : 0.1, most};
}

/// Numbers of the points with an engineering strain in the range.
std::vector<std::size_t> within(const TrueCurve& curve, const StrainRange& range) {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < curve.engineering.size(); ++i) {
        if (curve.engineering[i] >= range.least && curve.engineering[i] <= range.most
            && curve.plastic_strain[i] > 0) {
            places.push_back(i);
        }
    }
    return places;
}

std::optional<RangedNumber> n_of(const TrueCurve& curve, const StrainRange& range) {
    std::vector<double> strain;
    std::vector<double> stress;
    for (const std::size_t i : within(curve, range)) {
        strain.push_back(std::log(curve.plastic_strain[i]));
        stress.push_back(std::log(curve.stress[i]));
    }
    if (strain.size() < n_near_top_least) {
        return std::nullopt;
    }
    return RangedNumber{line_through(strain, stress).slope, range};
}

/// The strip thins as much as its length and width together leave over: volume is kept.
std::optional<RangedNumber> r_of(
    const TensileTest& test,
    const TrueCurve& curve,
    const StrainRange& range,
    const FitOptions& options,
    const ElasticPart& elastic
) {
    std::vector<double> along;
    std::vector<double> across;
    for (const std::size_t i : within(curve, range)) {
        if (i < test.width_strain.size()) {
            const double springs = options.poisson_ratio * curve.stress[i] / elastic.modulus;
            along.push_back(curve.plastic_strain[i]);
            across.push_back(std::log1p(test.width_strain[i]) + springs);
        }
    }
    if (along.size() < n_near_top_least) {
        return std::nullopt;
    }
    const double m = slope_through_origin(along, across);
    return RangedNumber{-m / (1 + m), range};
}

std::optional<TestProblem> width_problem(const TensileTest& test, const TensileFit& fit) {
    if (test.width_strain.empty() || !fit.r || (fit.r->value > 0.05 && fit.r->value < 5)) {
        return std::nullopt;
    }
    return TestProblem{
        std::nullopt,
        "a width strain that gives r = " + std::to_string(fit.r->value),
        "a width that shrinks: r from 0.05 to 5",
        "check sign and unit of the width column"};
}

} // namespace

Result<TensileFit, TestProblem>
fit_tensile_test(const TensileTest& record, const FitOptions& options) {
    const Result<TensileTest, TestProblem> test = sound_test(record);
    if (!test) {
        return tl::unexpected(test.error());
    }
    const Result<ElasticPart, TestProblem> elastic = elastic_part(*test, options.youngs_modulus);
    if (!elastic) {
        return tl::unexpected(elastic.error());
    }
    TensileFit fit;
    fit.elastic = *elastic;
    const Top top = top_of(*test, elastic->proof_point);
    const TrueCurve curve = true_curve(*test, *elastic);
    fit.tensile_strength = top.stress;
    if (top.strain) {
        fit.uniform_elongation = *top.strain - elastic->first_strain;
    }
    fit.total_elongation =
        *std::ranges::max_element(curve.engineering) - test->stress.back() / elastic->slope;
    const double last = fit.uniform_elongation.value_or(curve.engineering.back());
    const StrainRange range = usual_range(last);
    fit.n = n_of(curve, range);
    fit.r = r_of(*test, curve, range, options, *elastic);
    if (const auto problem = width_problem(*test, fit)) {
        return tl::unexpected(*problem);
    }
    fit.points = points_between(curve, elastic->proof_point, last);
    if (fit.points.stress.size() >= n_curve_least) {
        fit.curves = fit_curves(fit.points);
        std::ranges::sort(fit.curves, {}, &CurveFit::rms);
    }
    return fit;
}

} // namespace flangewright::material
