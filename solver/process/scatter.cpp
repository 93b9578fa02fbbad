#include "solver/process/scatter.hpp"

#include "mesh/base/child_processes.hpp"
#include "solver/findings/interior_neck.hpp"
#include "solver/material/scaled_hardening.hpp"
#include "solver/process/run_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace flangewright::process {

namespace {

constexpr std::array figures{
    &ScatterFigures::springback,
    &ScatterFigures::flange_angle,
    &ScatterFigures::edge_strain,
    &ScatterFigures::thinning,
    &ScatterFigures::web_lift};

struct Variation {
    std::string what;
    std::string band;
    std::function<void(job::Job&)> apply;
};

std::string per_cent(double share) {
    return fmt::format("{:g} %", 100 * share);
}

void scale_hardening(job::Job& job, double yield, double rise) {
    material::SheetMaterial& material = job.sheet.material;
    material.hardening = material::scaled_hardening(material.hardening, yield, rise);
    for (material::BackStress& back : material.back_stresses) {
        back.stiffness *= rise; // a back stress is part of the rise that a tensile test shows
    }
}

std::vector<Variation> variations_of(const job::Scatter& scatter) {
    std::vector<Variation> all{
        {"sheet thickness",
         per_cent(scatter.thickness),
         [&scatter](job::Job& job) {
             // The wiper's gap was set by the thickness in the case and stays.
             const double factor = 1 + scatter.thickness;
             job.sheet.thickness *= factor;
             job.drive.clearance = std::max(job.drive.clearance / factor, 1.0);
         }},
        {"yield stress",
         per_cent(scatter.yield_stress),
         [&scatter](job::Job& job) { scale_hardening(job, 1 + scatter.yield_stress, 1); }},
        {"hardening",
         per_cent(scatter.hardening),
         [&scatter](job::Job& job) { scale_hardening(job, 1, 1 + scatter.hardening); }},
        {"nose radius",
         per_cent(scatter.nose_radius),
         [&scatter](job::Job& job) { job.block.nose_radius *= 1 + scatter.nose_radius; }},
        {"friction", fmt::format("{:g}", scatter.friction), [&scatter](job::Job& job) {
             job.block.friction += scatter.friction;
         }}};
    const std::array bands{
        scatter.thickness,
        scatter.yield_stress,
        scatter.hardening,
        scatter.nose_radius,
        scatter.friction};
    std::vector<Variation> asked;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (bands[i] > 0) {
            asked.push_back(std::move(all[i]));
        }
    }
    return asked;
}

// What moves with the sheet and the tools: of a neck its share, since the strain at which the sheet
// necks moves with its curve as well; else the stretch, against a limit that stands.
double figure_of(const findings::LimitUse& limit) {
    return limit.place == findings::interior_place ? limit.share.value_or(0) : limit.reached;
}

Numbers figures_of(const job::Job& job, const findings::Verdict& looked_at) {
    const Result<JobResult> run =
        run_job(job, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    if (!run || run->reason != StopReason::done || run->steps.empty()) {
        return std::nullopt;
    }
    const findings::PartFindings& last = run->steps.back().findings;
    const findings::PartFindings& first = run->steps.front().findings; // on the block
    std::vector<double> numbers{
        last.springback_middle ? last.springback_middle->mean : 0,
        last.flange_angle_middle.mean,
        first.edge_strain_most,
        first.thinning_most,
        last.web_lift};
    for (const findings::LimitUse& limit : looked_at.limits) {
        const auto same =
            std::ranges::find(run->verdict.limits, limit.place, &findings::LimitUse::place);
        numbers.push_back(same == run->verdict.limits.end() ? 0 : figure_of(*same));
    }
    return numbers;
}

// What is reached at each limit, by how much of its value it moves.
void add_reached(
    ScatterBand& band, const findings::Verdict& looked_at, const std::vector<Numbers>& answers
) {
    for (std::size_t k = 0; k < looked_at.limits.size(); ++k) {
        const double as_is = answers[0]->at(figures.size() + k);
        if (as_is <= 0) {
            continue; // not stretched
        }
        band.places.push_back(looked_at.limits[k].place);
        for (std::size_t i = 0; i < band.parts.size(); ++i) {
            const double varied = answers[i + 1]->at(figures.size() + k);
            band.parts[i].reached.push_back(varied / as_is - 1);
        }
    }
}

} // namespace

std::optional<ScatterBand> estimate_scatter(
    const job::Job& job, int n_at_once, const Monitor& monitor, const findings::Verdict& verdict
) {
    const job::Scatter scatter = job.scatter.value_or(job::Scatter{});
    const std::vector<Variation> variations = variations_of(scatter);
    const int n_jobs = static_cast<int>(variations.size()) + 1;
    const auto solve = [&](int index) {
        job::Job varied = job;
        varied.accuracy = job::Accuracy::quick;
        varied.scatter.reset();
        // As the error of the mesh: the bands stand beside the figures of block and release.
        varied.steps = job::up_to_release(varied.steps);
        if (index > 0) {
            variations[static_cast<std::size_t>(index) - 1].apply(varied);
        }
        return figures_of(varied, verdict);
    };
    const auto tell = [&](int n_done) {
        monitor.report({.step = "scatter", .share_done = static_cast<double>(n_done) / n_jobs});
    };
    tell(0);
    const std::vector<Numbers> answers =
        in_child_processes(n_jobs, n_at_once, solve, tell, monitor.stop);
    if (!std::ranges::all_of(answers, [](const Numbers& answer) { return answer.has_value(); })) {
        return std::nullopt;
    }
    ScatterBand band;
    for (std::size_t i = 0; i < variations.size(); ++i) {
        ScatterPart part{variations[i].what, variations[i].band, {}};
        for (std::size_t k = 0; k < figures.size(); ++k) {
            const double move = answers[i + 1]->at(k) - answers[0]->at(k);
            part.moves.*figures[k] = move;
            band.total.*figures[k] = std::hypot(band.total.*figures[k], move);
        }
        band.parts.push_back(std::move(part));
    }
    add_reached(band, verdict, answers);
    return band;
}

} // namespace flangewright::process
