#include "solver/limits/groove_fit.hpp"

#include "mesh/base/check.hpp"
#include "mesh/base/sign_change.hpp"
#include "solver/limits/local_neck.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace flangewright::limits {

namespace {

using material::DataGrade;
using material::FormingPoint;

constexpr double near_plane_strain = 0.1; // minor over major
constexpr double near_enough = 1e-3; // of the logarithm of the major strain

bool is_trusted(DataGrade grade) {
    return grade <= DataGrade::typical;
}

bool is_near_plane_strain(const FormingPoint& point) {
    return std::abs(point.minor) <= near_plane_strain * point.major;
}

struct Measured {
    std::vector<FormingPoint> points;
    DataGrade grade = DataGrade::coupon;
    std::string source;
    double direction = 0;
};

/// The points and FLC0 as one more, each if it can be trusted.
Measured measured_of(const material::FormingLimit& limit) {
    Measured measured;
    measured.direction = limit.direction;
    const auto add_origin = [&measured](DataGrade grade, const std::string& source) {
        measured.grade = std::max(measured.grade, grade);
        const bool is_told = measured.source.find(source) != std::string::npos;
        measured.source += is_told ? "" : (measured.source.empty() ? "" : "; ") + source;
    };
    if (!limit.points.empty() && is_trusted(limit.grade)) {
        measured.points = limit.points;
        add_origin(limit.grade, limit.source);
    }
    const bool has_plane_strain = std::ranges::any_of(measured.points, [](const auto& point) {
        return std::abs(point.minor) < 1e-9;
    });
    if (limit.flc0.value && is_trusted(limit.flc0.grade) && !has_plane_strain) {
        measured.points.push_back({0, *limit.flc0.value});
        add_origin(limit.flc0.grade, limit.flc0.source);
    }
    return measured;
}

double computed_major(
    const NeckingSheet& sheet, const GrooveChoice& choice, const LimitBeside& at, double direction
) {
    return major_at_neck(sheet, choice, at.measured.minor / at.measured.major, direction);
}

/// One curve of the sheet and the points a groove is fitted to.
class Fitting {
public:
    Fitting(const NeckingSheet& sheet, const Measured& measured) : sheet_(sheet) {
        direction_ = measured.direction;
        for (const FormingPoint& point : measured.points) {
            if (is_near_plane_strain(point)) {
                fitted_.push_back({point, 0});
            }
        }
        is_by_plane_strain_ = !fitted_.empty();
        if (fitted_.empty()) {
            for (const FormingPoint& point : measured.points) {
                fitted_.push_back({point, 0});
            }
        }
    }

    /// Mean logarithm of computed over measured.
    [[nodiscard]] double misfit(double thickness_ratio) const {
        GrooveChoice choice;
        choice.thickness_ratio = thickness_ratio;
        double sum = 0;
        for (const LimitBeside& point : fitted_) {
            sum +=
                std::log(computed_major(sheet_, choice, point, direction_) / point.measured.major);
        }
        return sum / static_cast<double>(fitted_.size());
    }

    /// The groove that meets them; none where that is not between the two bounds.
    [[nodiscard]] std::optional<double> thickness_ratio() const {
        SignSearch search;
        search.from = std::log(1 - shallowest);
        search.to = std::log(1 - deepest);
        search.tolerance = 1e-6;
        search.figure_tolerance = near_enough;
        const SignChange found = find_sign_change(search, [this](const std::vector<double>& at) {
            std::vector<std::optional<double>> figures;
            figures.reserve(at.size());
            for (const double depth : at) {
                figures.emplace_back(misfit(1 - std::exp(depth)));
            }
            return figures;
        });
        return found.end == SignEnd::found ? std::optional(1 - std::exp(found.at)) : std::nullopt;
    }
    [[nodiscard]] bool is_by_plane_strain() const { return is_by_plane_strain_; }

private:
    const NeckingSheet& sheet_;
    double direction_ = 0;
    std::vector<LimitBeside> fitted_;
    bool is_by_plane_strain_ = false;
};

struct Candidate {
    std::shared_ptr<const material::HardeningLaw> flow;
    std::string law_name;
};

/// The curve that is used first.
std::vector<Candidate> curves_of(const material::SheetMaterial& material) {
    std::vector<Candidate> curves{
        {material::steady_flow(material.hardening, material.back_stresses), material.law_name}};
    for (const material::OtherCurve& other : material.other_curves) {
        if (other.law) {
            curves.push_back({other.law, other.law_name});
        }
    }
    return curves;
}

/// Takes the first curve on which a groove meets the points; false where none does.
bool fit_on_a_curve(
    GrooveFit& fit,
    const std::vector<Candidate>& curves,
    const material::YieldLaw& yield,
    const Measured& measured
) {
    for (std::size_t i = 0; i < curves.size(); ++i) {
        const NeckingSheet sheet{*curves[i].flow, yield};
        const Fitting fitting(sheet, measured);
        fit.is_by_plane_strain = fitting.is_by_plane_strain();
        if (const std::optional<double> ratio = fitting.thickness_ratio()) {
            fit.basis = GrooveBasis::measured;
            fit.choice.thickness_ratio = *ratio;
            fit.flow = curves[i].flow;
            fit.law_name = curves[i].law_name;
            fit.is_other_curve = i > 0;
            return true;
        }
    }
    return false;
}

} // namespace

double GrooveFit::correction(double ratio) const {
    if (!is_from_points()) {
        return 1;
    }
    // By growing ratio of strains, which need not be the order of the minor strains.
    std::vector<std::pair<double, double>> known;
    for (const LimitBeside& point : points) {
        known.emplace_back(
            point.measured.minor / point.measured.major,
            std::log(point.computed_major / point.measured.major)
        );
    }
    std::ranges::sort(known);
    const auto after =
        std::ranges::lower_bound(known, ratio, {}, &std::pair<double, double>::first);
    if (after == known.begin()) {
        return std::exp(known.front().second);
    }
    if (after == known.end()) {
        return std::exp(known.back().second);
    }
    const auto before = after - 1;
    const double part = (ratio - before->first) / (after->first - before->first);
    return std::exp(before->second + part * (after->second - before->second));
}

double GrooveFit::most_above() const {
    double most = -std::numeric_limits<double>::infinity();
    for (const LimitBeside& point : points) {
        most = std::max(most, point.computed_major / point.measured.major - 1);
    }
    return points.empty() ? 0 : most;
}

double GrooveFit::most_below() const {
    double most = -std::numeric_limits<double>::infinity();
    for (const LimitBeside& point : points) {
        most = std::max(most, 1 - point.computed_major / point.measured.major);
    }
    return points.empty() ? 0 : most;
}

GrooveFit fit_groove(const material::SheetMaterial& material) {
    GrooveFit fit;
    if (!material.hardening) {
        return fit;
    }
    const std::vector<Candidate> curves = curves_of(material);
    fit.flow = curves.front().flow;
    fit.law_name = curves.front().law_name;
    if (!material.forming_limit) {
        return fit;
    }
    const Measured measured = measured_of(*material.forming_limit);
    if (measured.points.empty()) {
        fit.basis = GrooveBasis::doubtful;
        return fit;
    }
    const std::shared_ptr<const material::YieldLaw> yield = yield_of(material);
    if (!fit_on_a_curve(fit, curves, *yield, measured)) {
        const NeckingSheet as_used{*fit.flow, *yield};
        const bool is_above = Fitting(as_used, measured).misfit(shallowest) < 0;
        fit.basis = is_above ? GrooveBasis::above_even_sheet : GrooveBasis::below_deepest;
        fit.choice.thickness_ratio = is_above ? fit.choice.thickness_ratio : deepest;
    }
    fit.grade = measured.grade;
    fit.source = measured.source;
    for (const FormingPoint& point : measured.points) {
        LimitBeside beside{point, 0};
        beside.computed_major =
            computed_major({*fit.flow, *yield}, fit.choice, beside, measured.direction);
        fit.points.push_back(beside);
    }
    return fit;
}

double major_at_neck(
    const NeckingSheet& sheet, const GrooveChoice& choice, double ratio, double direction
) {
    const double c = std::cos(direction);
    const double s = std::sin(direction);
    const std::array<RollingStrain, 1> unit{
        {{c * c + ratio * s * s, s * s + ratio * c * c, 2 * c * s * (1 - ratio)}}};
    const std::vector<PathStretch> path = stretches_of(sheet.yield, unit);
    const double at_neck = share_to_neck(sheet, path, choice).at_neck;
    return std::min(at_neck, choice.furthest) / path.front().length;
}

std::shared_ptr<const material::YieldLaw> yield_of(const material::SheetMaterial& material) {
    if (material.yield) {
        return material.yield;
    }
    for (const material::YieldEntry& entry : material::yield_laws()) {
        if (entry.name == "von_mises") {
            return entry.make({});
        }
    }
    check(false, "von Mises is among the yield laws");
    return nullptr;
}

} // namespace flangewright::limits
