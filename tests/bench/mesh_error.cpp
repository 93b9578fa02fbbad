// Estimated against true error of the mesh, by hand: mesh_error [first letters of a case]. The
// truth is a solve of the whole part, four times as fine in every direction (small parts), else
// twice. Prints the rows of the table in docs/verification/page.in.md.
#include "solver/process/mesh_error.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/solid_cases.hpp"

#include <fmt/format.h>

#include <chrono>
#include <map>
#include <numbers>
#include <string>

namespace flangewright {
namespace {

constexpr double deg = std::numbers::pi / 180;

struct Trial {
    job::Job job;
    process::Fineness fineness = process::fineness_for(job::Accuracy::normal);
    bool is_small = false; ///< a truth four times as fine can be afforded
};

// Three of our own, chosen before any was run: an arc with a cut end over a small nose, a straight
// flange of hard thin sheet with two cut ends, a convex arc driven by the leaf.
std::map<std::string, Trial> trials() {
    using job::EndKind;
    using outline::BendLine;
    using outline::Curve;
    std::map<std::string, Trial> all;
    all["S1 1.4 t"].job = support::solid_job(support::SolidCase::s1, 1.4);
    all["S1 1.4 t"].fineness.longest = 1;
    all["S1 1.4 t"].is_small = all["A2 1.4 t"].is_small = true;
    all["A2 1.4 t"].job = support::solid_job(support::SolidCase::a2, 1.4);
    job::Job arc = support::small_flange(
        BendLine::arc(80, 20 * deg, Curve::concave), EndKind::free, EndKind::continues
    );
    arc.block.nose_radius = 2;
    arc.blank.web_width = 20;
    arc.blank.flange_width = 12;
    all["concave, R 80, nose 2"].job = arc;
    job::Job straight = support::small_flange(BendLine::straight(30), EndKind::free, EndKind::free);
    straight.sheet.thickness = 0.6;
    straight.sheet.material.hardening = support::swift(500, 0.02, 0.15);
    straight.block.nose_radius = 2.5;
    straight.blank.web_width = 15;
    straight.blank.flange_width = 12;
    all["straight, 0.6, nose 2.5"].job = straight;
    job::Job convex = support::small_flange(
        BendLine::arc(120, 12 * deg, Curve::convex), EndKind::free, EndKind::continues
    );
    convex.block.nose_radius = 4;
    convex.blank.web_width = 20;
    convex.blank.flange_width = 14;
    convex.drive.kind = job::DriveKind::leaf;
    convex.drive.clearance = 1.1;
    all["convex, R 120, nose 4, leaf"].job = convex;
    all["convex, R 120, nose 4, leaf"].is_small = true;
    return all;
}

struct Solved {
    process::Workpiece piece;
    std::vector<process::StepResult> steps;
    bool is_done = false;

    [[nodiscard]] double springback() const {
        return steps[0].findings.flange_angle_middle.mean
            - steps[1].findings.flange_angle_middle.mean;
    }
    [[nodiscard]] double edge_strain() const { return steps[0].findings.edge_strain_most; }
    [[nodiscard]] double thinning() const { return steps[0].findings.thinning_most; }
    [[nodiscard]] double lift() const { return steps[1].findings.web_lift; }
};

Solved run(const job::Job& job, const process::Fineness& fineness) {
    auto made = process::make_workpiece(job, fineness, 2);
    check(made.has_value(), "it can be meshed");
    Solved solved{std::move(*made), {}, true};
    process::Workpiece& piece = solved.piece;
    std::optional<std::vector<double>> held;
    for (const job::StepKind kind : job.steps) {
        process::StepResult step;
        step.kind = kind;
        step.report = kind == job::StepKind::release ? process::release(piece, {}, {})
                                                     : process::bend_down(piece, {}, {}, {});
        solved.is_done = solved.is_done && step.report.reason == process::StopReason::done;
        step.fields = shell::recover_fields(piece.model, piece.state);
        const findings::PartShape shape = findings::shape_of(piece.state, step.fields);
        step.findings = held ? findings::find_in_part(
                            piece.mesh, shape, step.fields, job, std::span<const double>(*held)
                        )
                             : findings::find_in_part(piece.mesh, shape, step.fields, job);
        held = findings::flange_angles(step.findings);
        solved.steps.push_back(std::move(step));
    }
    return solved;
}

double seconds_since(std::chrono::steady_clock::time_point begin) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

void print_row(const std::string& name, const Trial& trial) {
    const auto begin = std::chrono::steady_clock::now();
    const Solved own = run(trial.job, trial.fineness);
    const double seconds_run = seconds_since(begin);
    const auto begin_estimate = std::chrono::steady_clock::now();
    const auto estimate = process::estimate_mesh_error(own.piece, trial.fineness, own.steps, {});
    const double seconds_estimate = seconds_since(begin_estimate);
    process::Fineness fineness = process::twice_as_fine(trial.fineness);
    if (trial.is_small) {
        fineness = process::twice_as_fine(fineness);
        fineness.n_layers = 2 * trial.fineness.n_layers; // these are fine enough
    }
    const Solved fine = run(trial.job, fineness);
    if (!own.is_done || !fine.is_done || !estimate) {
        fmt::print("| {} | no equilibrium |\n", name);
        return;
    }
    const auto cell = [](double value, double unit, double found, double estimated, double truth) {
        return fmt::format(
            "{:.3f} -> {:.3f}: {:.3f} / {:.3f} = {:.2f}",
            value * unit,
            found * unit,
            estimated * unit,
            truth * unit,
            estimated / truth
        );
    };
    const auto all = [&](double a, double b, double unit, double estimated) {
        return cell(a, unit, b, estimated, std::abs(a - b));
    };
    fmt::print(
        "| {} | {} | {} | {} | {} | {} | {:.1f} of {:.1f} s |\n",
        name,
        own.piece.model.n_elements(),
        all(own.springback(), fine.springback(), 1 / deg, estimate->springback),
        all(own.edge_strain(), fine.edge_strain(), 100, estimate->edge_strain),
        all(own.thinning(), fine.thinning(), 100, estimate->thinning),
        all(own.lift(), fine.lift(), 1, estimate->web_lift.value_or(0)),
        seconds_estimate,
        seconds_run
    );
    std::fflush(stdout);
}

} // namespace
} // namespace flangewright

int main(int n_words, char** words) {
    for (const auto& [name, trial] : flangewright::trials()) {
        if (n_words < 2 || name.starts_with(words[1])) {
            flangewright::print_row(name, trial);
        }
    }
}
