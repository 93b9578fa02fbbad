#include "solver/process/split_chance.hpp"

#include "solver/findings/verdict.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::process {

namespace {

findings::Chance not_given(std::string why) {
    findings::Chance chance;
    chance.why_not = std::move(why);
    return chance;
}

bool has_step(const job::Job& job, job::StepKind kind) {
    return std::ranges::find(job.steps, kind) != job.steps.end();
}

} // namespace

findings::Chance
chance_of_job(const job::Job& job, const findings::Verdict& verdict, const ScatterBand& band) {
    if (has_step(job, job::StepKind::return_bend)) {
        return not_given("The scatter is that of bend-down and release; what it does to a lip that "
                         "is bent later is not computed.");
    }
    const double edge_band = job.scatter.value_or(job::Scatter{}).edge_limit;
    std::vector<findings::LimitMoves> limits;
    for (const findings::LimitUse& use : verdict.limits) {
        if (!use.is_needed || use.place == findings::thickness_place) {
            continue; // too thin for the drawing is no split
        }
        if (!use.share) {
            return not_given(fmt::format("What the {} bears is not known.", use.place));
        }
        const auto found = std::ranges::find(band.places, use.place);
        if (found == band.places.end()) {
            return not_given(fmt::format(
                "What scatter does to the {} is not known: the quick mesh shows no stretch there.",
                use.place
            ));
        }
        const auto at = static_cast<std::size_t>(found - band.places.begin());
        findings::LimitMoves limit{use.place, *use.share, {}, use.is_cut_edge ? edge_band : 0};
        for (const ScatterPart& part : band.parts) {
            limit.moves.push_back(part.reached.at(at));
        }
        limits.push_back(std::move(limit));
    }
    return findings::chance_of_splitting(limits);
}

} // namespace flangewright::process
