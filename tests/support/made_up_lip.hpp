// A made-up return lip on the made-up result of formed_flange.hpp, for what shows it.
#pragma once

#include "tests/support/flange_job.hpp"
#include "tests/support/formed_flange.hpp"

#include <cmath>

namespace flangewright::support {

/// The job with a lip of 8 mm under the web.
inline job::Job made_up_lip_job() {
    job::Job job = made_up_job();
    job.return_bend = job::ReturnBend{.lip_depth = 8, .nose_radius = 2, .corner_radius = 3};
    return job;
}

/// Held and released with a lip: 89 and 86 deg, edge stretched by 10 % from flat, by 4 % since an
/// anneal; 12 % by hand.
inline process::JobResult made_up_lip_result() {
    process::JobResult result = made_up_result();
    result.steps.front().kind = job::StepKind::return_bend;
    for (process::StepResult& step : result.steps) {
        findings::PartFindings& found = step.findings;
        found.edge_strain_most = found.edge_tension_most = std::log(1.10);
        found.edge_tension_used = std::log(1.04);
        findings::LipFindings& lip = found.lip.emplace();
        lip.angle = lip.angle_middle = {88 * degree, 89 * degree, 90 * degree};
        lip.depth_mean = 8.1;
        lip.bend_strain_most = std::log(1.2);
        lip.bend_strain_used = std::log(1.15);
    }
    findings::LipFindings& released = *result.steps.back().findings.lip;
    released.angle = released.angle_middle = {85 * degree, 86 * degree, 87 * degree};
    released.springback_middle = 3 * degree;
    result.by_hand.lip = findings::LipByHand{
        .edge_stretch = 0.12, .edge_strain = std::log(1.12), .springback = 2.5 * degree};
    return result;
}

} // namespace flangewright::support
