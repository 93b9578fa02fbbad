// The search on a small part that is really bent: its own slice, on a quick mesh.
#include "solver/process/value_search.hpp"
#include "tests/support/tried_changes.hpp"

#include <cmath>

namespace flangewright::process {
namespace {

SearchWorks works_of(std::function<job::Job(double)> job_at) {
    SearchWorks works;
    works.quick.job_at = [job_at](double value) { return std::optional(job_at(value)); };
    works.quick.n_at_once = 2;
    works.rounded = [](double value) { return std::round(1e4 * value) / 1e4; };
    works.run_job = [](const job::Job& job, const RunOptions&, const Monitor& monitor) {
        return run_job(
            job, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, monitor
        );
    };
    return works;
}

TEST(ValueSearchOnARing, FindsTheDeepestFlangeThatAScanFinds) {
    job::Job ring = support::ring();
    support::set_edge_limit(ring, 0.7);
    const auto with_width = [ring](double width) {
        job::Job job = ring;
        job.blank.flange_width = width;
        return job;
    };
    ValueSearch search{Aim::most_share, 0.8};
    search.from = 8;
    search.to = 14;
    search.as_case = ring.blank.flange_width;
    search.tolerance = 0.5;
    const ValueFound found = find_value(search, works_of(with_width), {});
    ASSERT_EQ(found.end, SearchEnd::found);
    const auto share_at = [&](double width) {
        return *support::quick_run(with_width(width)).verdict.limits.front().share;
    };
    double deepest = 0; // of a scan from a millimetre below
    for (double width = found.value - 1; share_at(width) <= 0.8; width += 0.25) {
        deepest = width;
    }
    EXPECT_NEAR(found.value, deepest, 0.5);
    EXPECT_LE(share_at(found.value), 0.8);
}

TEST(ValueSearchOnARing, FindsTheUndercutThatGivesSquare) {
    constexpr double degree = std::numbers::pi / 180;
    const auto with_wall = [](double wall) {
        job::Job job = support::ring();
        job.drive.kind = job::DriveKind::leaf;
        job.block.wall_angle = wall;
        job.drive.angle = wall;
        return job;
    };
    ValueSearch search{Aim::flange_angle, 90 * degree, 0.3 * degree, 0.3 * degree};
    search.from = 88 * degree;
    search.to = 100 * degree;
    search.as_case = 90 * degree;
    const ValueFound found = find_value(search, works_of(with_wall), {});
    ASSERT_EQ(found.end, SearchEnd::found);
    const JobResult again = support::quick_run(with_wall(found.value));
    EXPECT_NEAR(*loose_angle(again) / degree, 90, 0.3);
    EXPECT_GT(found.value, 90.5 * degree); // it springs back
}

} // namespace
} // namespace flangewright::process
