#include "solver/limits/local_neck.hpp"

#include "solver/limits/necking.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::limits {

namespace {

constexpr double degree = std::numbers::pi / 180;
// A sheet that does not harden necks at once; its share stays a number.
constexpr double least_told = 1e-6;
// Outward from the direction of largest stretch, so that a small neck strain is found early and
// bounds the search of the others.
constexpr std::array spread{0, 15, -15, 30, -30, 45, -45, 60, -60, 75, -75, 90};

/// Direction of largest strain, from the rolling direction.
double major_direction(const RollingStrain& rate) {
    return 0.5 * std::atan2(rate[2], rate[0] - rate[1]);
}

/// Minor over major strain.
double strain_ratio(const RollingStrain& rate) {
    const double mean = 0.5 * (rate[0] + rate[1]);
    const double radius = 0.5 * std::hypot(rate[0] - rate[1], rate[2]);
    return (mean - radius) / (mean + radius);
}

double used_by(std::span<const PathStretch> path) {
    double used = 0;
    for (const PathStretch& stretch : path) {
        used += stretch.length;
    }
    return used;
}

/// Searches one groove after another, each no further than the best so far.
class GrooveSearch {
public:
    GrooveSearch(
        const NeckingSheet& sheet, std::span<const PathStretch> path, const GrooveChoice& choice
    )
        : sheet_(sheet), path_(path), choice_(choice) {}

    void look(double normal) {
        GrooveChoice within = choice_;
        within.furthest = std::min(choice_.furthest, best_);
        const double strain = strain_at_neck(sheet_, path_, normal, within);
        if (strain < best_) {
            best_ = strain;
            normal_ = normal;
        }
    }
    [[nodiscard]] double best() const { return best_; }
    [[nodiscard]] double normal() const { return normal_; }

private:
    const NeckingSheet& sheet_;
    std::span<const PathStretch> path_;
    const GrooveChoice& choice_;
    double best_ = std::numeric_limits<double>::infinity();
    double normal_ = 0;
};

} // namespace

NeckShare share_to_neck(
    const NeckingSheet& sheet, std::span<const PathStretch> path, const GrooveChoice& choice
) {
    NeckShare found;
    found.at_neck = std::numeric_limits<double>::infinity();
    path = up_to_thinning(path);
    if (path.empty()) {
        return found;
    }
    found.used = used_by(path);
    GrooveSearch search(sheet, path, choice);
    const double major = major_direction(path.back().rate);
    for (const int angle : spread) {
        search.look(major + angle * degree);
    }
    if (std::isfinite(search.best())) {
        for (const double closer : {7.5, 3.75, 1.9, 0.95}) {
            const double about = search.normal();
            search.look(about + closer * degree);
            search.look(about - closer * degree);
        }
    }
    found.at_neck = search.best();
    found.normal = search.normal();
    found.share = found.used / std::max(found.at_neck, least_told);
    return found;
}

double least_strain_at_neck(const NeckingSheet& sheet, const GrooveChoice& choice) {
    double least = choice.furthest;
    for (const int angle : {0, 45, 90, 135}) {
        const double c = std::cos(angle * degree);
        const double s = std::sin(angle * degree);
        const std::array<RollingStrain, 1> stretch{RollingStrain(c * c, s * s, 2 * c * s)};
        const std::vector<PathStretch> path = stretches_of(sheet.yield, stretch);
        least = std::min(least, share_to_neck(sheet, path, choice).at_neck);
    }
    return std::max(least, least_told);
}

double quick_share(std::span<const PathStretch> path, double least) {
    path = up_to_thinning(path);
    if (path.empty()) {
        return 0;
    }
    const double ratio = strain_ratio(path.back().rate);
    const double eased = ratio < 0 ? hill_factor(0) / hill_factor(ratio) : 1;
    return used_by(path) / least * eased;
}

} // namespace flangewright::limits
