#include "solver/findings/lip_advice.hpp"

#include "solver/findings/verdict.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::findings {

namespace {

// A part of a per cent is what annealing itself leaves of the stretch it wipes.
constexpr double smallest_wiped = 0.005;

/// Engineering stretch of the edge with its lip, the largest of all steps.
struct LipEdge {
    double from_flat = 0;
    double since_soft = 0;
    bool is_bent = false;
};

LipEdge lip_edge(std::span<const PartFindings> steps) {
    LipEdge edge;
    for (const PartFindings& step : steps) {
        if (step.lip) {
            edge.is_bent = true;
            edge.from_flat = std::max(edge.from_flat, std::expm1(step.edge_tension_most));
            edge.since_soft = std::max(edge.since_soft, std::expm1(step.edge_tension_used));
        }
    }
    return edge;
}

const LimitUse* limit_of_edge(const Verdict& verdict) {
    const auto found = std::ranges::find(verdict.limits, edge_place, &LimitUse::place);
    return found == verdict.limits.end() ? nullptr : &*found;
}

/// How the edge would stand without an anneal, judged as the verdict judges the free edge.
std::string without_anneal(double stretch, double allowed, bool is_close) {
    const std::string used = fmt::format(
        "its edge takes {:.1f} % from flat, {:.0f} % of what this sheet bears",
        100 * stretch,
        100 * stretch / allowed
    );
    if (stretch > allowed) {
        return fmt::format("Without an anneal before it the lip can't follow: {}.", used);
    }
    return is_close ? fmt::format("Anneal before the lip: {}, and that is close.", used)
                    : fmt::format("The lip can follow without an anneal: {}.", used);
}

} // namespace

std::optional<std::string>
lip_advice(const job::Job& job, std::span<const PartFindings> steps, const Verdict& verdict) {
    const LipEdge edge = lip_edge(steps);
    if (!edge.is_bent) {
        return std::nullopt;
    }
    const LimitUse* limit = limit_of_edge(verdict);
    if (limit == nullptr || !limit->allowed) {
        return "Whether the lip can follow without an anneal is not known: this sheet's uniform "
               "elongation is missing.";
    }
    const double share = edge.from_flat / *limit->allowed;
    const bool is_close = share >= job.close_share || is_doubtful(share, limit->grade);
    std::string advice = without_anneal(edge.from_flat, *limit->allowed, is_close);
    if (edge.from_flat - edge.since_soft > smallest_wiped) {
        advice += fmt::format(
            " Since the anneal it takes {:.1f} %, {:.0f} %.",
            100 * edge.since_soft,
            100 * edge.since_soft / *limit->allowed
        );
    }
    return advice;
}

} // namespace flangewright::findings
