// A job whose changes can be told, and what is asked of them.
#pragma once

#include "solver/process/remedies.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::support {

inline process::JobResult quick_run(const job::Job& job) {
    auto run =
        process::run_job(job, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    EXPECT_TRUE(run.has_value());
    return std::move(*run);
}

/// One element along, so that the part is its own slice.
inline job::Job ring() {
    job::Job job = small_flange(
        outline::BendLine::arc(60, 0.03, outline::Curve::concave),
        job::EndKind::continues,
        job::EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.sheet.material.bend_limits = {{1, 0.5}};
    job.sheet.material.bend_grade = material::DataGrade::coupon;
    return job;
}

/// An edge limit of which the job uses this share.
inline void set_edge_limit(job::Job& job, double share) {
    const double reached = quick_run(job).verdict.limits.front().reached;
    job.sheet.material.uniform_elongation = {
        reached / share, material::DataGrade::coupon, "made up"};
}

inline const process::Remedy* find(const process::Remedies& remedies, process::RemedyKind kind) {
    const auto found = std::ranges::find(remedies.helpful, kind, &process::Remedy::kind);
    return found == remedies.helpful.end() ? nullptr : &*found;
}

} // namespace flangewright::support
