#include "solver/findings/disagreements.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <optional>

namespace flangewright::findings {

namespace {

constexpr double largest_agreeing_share = 1.0 / 3.0;
constexpr double strain_that_matters = 0.005;
constexpr double angle_that_matters = 0.25 * std::numbers::pi / 180;

/// A figure both ways, and how small a difference doesn't matter.
struct Pair {
    double computed = 0;
    double by_hand = 0;
    double too_small = 0;

    [[nodiscard]] bool disagrees() const {
        const double difference = std::abs(computed - by_hand);
        return std::isfinite(difference) && difference > too_small
            && difference > largest_agreeing_share * std::abs(by_hand);
    }
    [[nodiscard]] bool is_less() const { return std::abs(computed) < std::abs(by_hand); }
};

double percent(double log_strain) {
    return 100 * std::expm1(log_strain);
}

double degrees(double angle) {
    return angle * 180 / std::numbers::pi;
}

std::string edge_reason(const job::Job& job, bool is_less) {
    if (job.blank.line.curve() == outline::Curve::straight) {
        return "The edge of a straight flange keeps its length: look for a buckle in the pictures";
    }
    if (!is_less) {
        return "The stretch is probably bunched up at one place: look where it peaks along the "
               "edge";
    }
    if (job.blank.line.curve() == outline::Curve::mixed) {
        return "Metal probably feeds in from the neighbouring pieces of the bend line or a free "
               "end, which the hand calculation leaves out";
    }
    return job.blank.has_free_end()
        ? "Metal probably feeds in from the free ends, which the hand calculation "
          "leaves out"
        : "The flange is probably not driven home to the block";
}

std::string bend_reason(bool is_less) {
    return is_less
        ? "The sheet probably stands off the nose: look at the section picture"
        : "It probably bends tighter than the nose at one place: see the outer-face picture";
}

/// The hand calculation takes the largest of a wall's angles: whether half-way to the least it
/// would agree.
bool agrees_on_half_the_bevel(const job::Job& job, Pair spring) {
    const outline::Profile& walls = job.block.wall_angles;
    if (walls.is_empty()) {
        return false;
    }
    spring.by_hand *= 0.5 * (walls.least() + walls.most()) / walls.most();
    return !spring.disagrees();
}

std::string springback_reason(const job::Job& job, const Pair& spring) {
    if (agrees_on_half_the_bevel(job, spring)) {
        return "The hand calculation takes the largest of the wall's angles";
    }
    if (!spring.is_less()) {
        return "The flange probably bows between nose and drive, and that bow springs back too";
    }
    return job.drive.kind == job::DriveKind::wiper
        ? "The wiper probably bends the flange back a little as it passes, or the curve holds it"
        : "The curve probably holds the flange, or pressing it home bends it back a little";
}

/// The figure the hand calculation speaks of: where the line is tightest the edge stretches, or
/// shrinks when no piece is concave.
double edge_strain_at_tightest(const job::Job& job, const PartFindings& step) {
    const bool is_stretched_somewhere =
        job.blank.line.curve() == outline::Curve::mixed && job.blank.line.tightest_curvature() > 0;
    return is_stretched_somewhere ? step.edge_tension_most : step.edge_strain_most;
}

std::optional<double> computed_springback(std::span<const PartFindings> steps) {
    for (const PartFindings& step : steps) {
        if (step.springback_middle) {
            return step.springback_middle->mean;
        }
    }
    return std::nullopt;
}

Disagreement disagreement(
    const std::string& figure, const Pair& pair, const std::string& values, const std::string& why
) {
    return {
        figure,
        pair.computed,
        pair.by_hand,
        fmt::format("{}, more than a third apart. {}.", values, why)};
}

std::string strains_in_words(const std::string& name, const Pair& pair) {
    return fmt::format(
        "{}: {:.1f} % computed, {:.1f} % by hand",
        name,
        percent(pair.computed),
        percent(pair.by_hand)
    );
}

/// Keeps the value larger in size.
void take_larger(double& kept, double value) {
    if (std::abs(value) > std::abs(kept)) {
        kept = value;
    }
}

} // namespace

std::vector<Disagreement> find_disagreements(
    const job::Job& job, const HandCalculation& by_hand, std::span<const PartFindings> steps
) {
    if (steps.empty()) {
        return {};
    }
    Pair edge{0, by_hand.edge_strain, strain_that_matters};
    Pair lip_edge{0, by_hand.lip ? by_hand.lip->edge_strain : 0, strain_that_matters};
    Pair bend{0, by_hand.bend_strain, strain_that_matters};
    for (const PartFindings& step : steps) {
        take_larger(
            step.lip ? lip_edge.computed : edge.computed, edge_strain_at_tightest(job, step)
        );
        bend.computed = std::max(bend.computed, step.bend_strain_most);
    }
    std::vector<Disagreement> found;
    if (edge.disagrees()) {
        found.push_back(disagreement(
            "edge stretch",
            edge,
            strains_in_words("Edge stretch", edge),
            edge_reason(job, edge.is_less())
        ));
    }
    if (lip_edge.computed != 0 && lip_edge.disagrees()) {
        found.push_back(disagreement(
            "edge stretch of the lip",
            lip_edge,
            strains_in_words("Edge stretch of the lip", lip_edge),
            edge_reason(job, lip_edge.is_less())
        ));
    }
    if (bend.disagrees()) {
        found.push_back(disagreement(
            "outer-fibre strain of the bend",
            bend,
            strains_in_words("Stretch of the bend's outer fibre", bend),
            bend_reason(bend.is_less())
        ));
    }
    if (const std::optional<double> released = computed_springback(steps)) {
        const Pair spring{*released, by_hand.springback, angle_that_matters};
        if (spring.disagrees()) {
            const std::string values = fmt::format(
                "Springback: {:.1f} deg computed, {:.1f} deg by hand",
                degrees(spring.computed),
                degrees(spring.by_hand)
            );
            found.push_back(
                disagreement("springback", spring, values, springback_reason(job, spring))
            );
        }
    }
    return found;
}

} // namespace flangewright::findings
