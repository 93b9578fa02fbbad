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
        return "on a straight bend line the edge should keep its length, so look at the shape for "
               "a buckle, or at how the flange is driven";
    }
    if (!is_less) {
        return "the strain is probably bunched up at one place instead of spread over the arc: "
               "look "
               "where the peak lies, and refine the mesh before believing it";
    }
    const bool has_free_end =
        job.blank.start == job::EndKind::free || job.blank.end == job::EndKind::free;
    return has_free_end
        ? "the arc is probably short for its flange, so metal feeds in from the free ends, which "
          "the radius ratio leaves out; or the flange isn't driven home to the wall"
        : "the flange is probably not driven home to the wall";
}

std::string bend_reason(bool is_less) {
    return is_less
        ? "the sheet probably doesn't follow the nose all the way (the drive stands off), or the "
          "mesh is too coarse round the nose"
        : "the bend is probably tighter than the nose at one place, from the drive's corner or a "
          "tight gap, or stretched along with it; refine the mesh round the nose before believing "
          "it";
}

std::string springback_reason(const job::Job& job, bool is_less) {
    if (is_less) {
        return job.drive.kind == job::DriveKind::wiper
            ? "a wiper with a tight gap bends the flange back as it passes, and a curved flange "
              "holds itself; the ideal strip knows neither"
            : "a curved flange holds itself, and pressing the flange home bends it back a little; "
              "the ideal strip knows neither";
    }
    return "the flange between nose and drive is probably bowed as well and unbends on release, or "
           "the web moved behind the backing; the ideal strip is bent at the nose only";
}

std::optional<double> computed_springback(std::span<const PartFindings> steps) {
    std::optional<double> last;
    for (const PartFindings& step : steps) {
        if (step.springback_middle) {
            last = step.springback_middle->mean;
        }
    }
    return last;
}

Disagreement disagreement(
    const std::string& figure, const Pair& pair, const std::string& values, const std::string& why
) {
    return {
        figure,
        pair.computed,
        pair.by_hand,
        fmt::format("The {} computed ({}) differ by more than a third: {}.", figure, values, why)};
}

std::string strains_in_words(const Pair& pair) {
    return fmt::format(
        "{:.1f} %) and by hand ({:.1f} %", percent(pair.computed), percent(pair.by_hand)
    );
}

} // namespace

std::vector<Disagreement> find_disagreements(
    const job::Job& job, const HandCalculation& by_hand, std::span<const PartFindings> steps
) {
    if (steps.empty()) {
        return {};
    }
    Pair edge{0, by_hand.edge_strain, strain_that_matters};
    Pair bend{0, by_hand.bend_strain, strain_that_matters};
    for (const PartFindings& step : steps) {
        if (std::abs(step.edge_strain_most) > std::abs(edge.computed)) {
            edge.computed = step.edge_strain_most;
        }
        bend.computed = std::max(bend.computed, step.bend_strain_most);
    }
    std::vector<Disagreement> found;
    if (edge.disagrees()) {
        found.push_back(disagreement(
            "edge stretch", edge, strains_in_words(edge), edge_reason(job, edge.is_less())
        ));
    }
    if (bend.disagrees()) {
        found.push_back(disagreement(
            "outer-fibre strain of the bend",
            bend,
            strains_in_words(bend),
            bend_reason(bend.is_less())
        ));
    }
    if (const std::optional<double> released = computed_springback(steps)) {
        const Pair spring{*released, by_hand.springback, angle_that_matters};
        if (spring.disagrees()) {
            const std::string values = fmt::format(
                "{:.1f} deg) and by hand ({:.1f} deg",
                degrees(spring.computed),
                degrees(spring.by_hand)
            );
            found.push_back(
                disagreement("springback", spring, values, springback_reason(job, spring.is_less()))
            );
        }
    }
    return found;
}

} // namespace flangewright::findings
