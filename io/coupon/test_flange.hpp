// A plain test flange for a job: a concave bend line whose radius falls in steps along it.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"
#include "solver/findings/edge_limit.hpp"
#include "solver/job/job.hpp"

#include <string>
#include <vector>

namespace flangewright::coupon {

/// One arc of the bend line.
struct FlangeStep {
    double radius = 0; ///< of the bend tangent line, in halves of a millimetre
    double length = 0; ///< along the bend line, where marks are read
    double stretch = 0; ///< of the edge by hand, engineering, -
};

/// Sizes of the flange. mm.
struct TestFlange {
    std::vector<FlangeStep> steps; ///< radii fall, stretches rise
    double run_out = 0; ///< first and last arc go on by so much toward the cut ends
    double flat_width = 0; ///< bend tangent to edge, that of the job
    double web_width = 0;
    findings::EdgeLimit allowed; ///< what the job's sheet bears as known so far
};

/// Three to five arcs, as many as a line of half a turn at most has room for: the edge's stretch by
/// the radius ratio rises in even steps from half of what is allowed now to 1.3 of it. Units: mm.
/// Source: stretch-flange-closed-forms (edge strain by the radius ratio, findings/
/// flange_development.hpp); lengths of two flat widths and run-outs of one and a half: common
/// practice, no source. Fails: where no limit of the edge is known, or no three radii have room.
[[nodiscard]] Result<TestFlange, key_file::InputProblem>
test_flange(const job::Job& job, const std::string& file);

} // namespace flangewright::coupon
