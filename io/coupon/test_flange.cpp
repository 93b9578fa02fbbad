#include "io/coupon/test_flange.hpp"

#include "solver/findings/flange_development.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::coupon {

namespace {

using key_file::InputProblem;

constexpr double least_share = 0.5; // of the stretch allowed now
constexpr double most_share = 1.3;
constexpr double most_turn = std::numbers::pi;
constexpr double least_step = 1; // mm between radii that a block can be cut to
constexpr double shortest_arc = 15; // mm: three gaps between marks
constexpr double widest_web = 40; // mm

/// Radius whose edge stretches so much, by halving the curvature's range: the stretch grows with
/// it.
double radius_for(const job::Job& job, double flat_width, double stretch) {
    double flatter = 0;
    double tighter = 1 / flat_width;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (flatter + tighter);
        const bool is_enough =
            middle > 0 && findings::edge_stretch_at(job, flat_width, middle) >= stretch;
        (is_enough ? tighter : flatter) = middle;
    }
    return std::round(2 / tighter) / 2;
}

std::vector<FlangeStep> steps_for(const job::Job& job, const TestFlange& flange, int n) {
    std::vector<FlangeStep> steps;
    for (int i = 0; i < n; ++i) {
        const double share = least_share + (most_share - least_share) * i / (n - 1);
        FlangeStep step;
        step.radius = radius_for(job, flange.flat_width, share * *flange.allowed.bears.value);
        step.length = std::max(2 * flange.flat_width, shortest_arc);
        step.stretch = findings::edge_stretch_at(job, flange.flat_width, 1 / step.radius);
        steps.push_back(step);
    }
    return steps;
}

bool has_room(const TestFlange& flange) {
    double turn =
        flange.run_out / flange.steps.front().radius + flange.run_out / flange.steps.back().radius;
    for (std::size_t i = 0; i < flange.steps.size(); ++i) {
        const FlangeStep& step = flange.steps[i];
        if (i > 0 && flange.steps[i - 1].radius - step.radius < least_step) {
            return false;
        }
        turn += step.length / step.radius;
    }
    return turn <= most_turn;
}

} // namespace

Result<TestFlange, InputProblem> test_flange(const job::Job& job, const std::string& file) {
    TestFlange flange;
    flange.allowed = findings::edge_limit(job.sheet.material, job.blank.edge_finish);
    if (!flange.allowed.bears.value) {
        return tl::unexpected(InputProblem{
            file,
            0,
            0,
            "sheet.material",
            flange.allowed.what + " that is not known",
            "a sheet whose edge limit or elongation is known, as a first guess",
            "write the edge's finish into [blank], or a guess into the sheet: edge_limit"});
    }
    flange.flat_width = std::ceil(job.blank.flange_width * 10 - 1e-6) / 10;
    const double t = job.sheet.thickness;
    flange.web_width = std::min(
        job.blank.web_width, std::max({widest_web, 6 * t, job.block.backing_setback + 3 * t})
    );
    flange.run_out = 1.5 * flange.flat_width;
    for (const int n : {5, 4, 3}) {
        flange.steps = steps_for(job, flange, n);
        if (has_room(flange)) {
            return flange;
        }
    }
    return tl::unexpected(InputProblem{
        file,
        0,
        0,
        "blank",
        fmt::format("a flange of {:.3g} mm flat width", flange.flat_width),
        "a flange for which three arcs of the test have room on half a turn",
        "write a coupon for a flange that is a little wider"});
}

} // namespace flangewright::coupon
