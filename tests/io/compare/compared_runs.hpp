// Made-up runs to compare.
#pragma once

#include "io/compare/judgement.hpp"

namespace flangewright::compare {

/// A finished run with that share; the error as a share, too, none for a negative one.
inline ComparedRun
made_up_run(const std::string& label, const std::string& verdict, double share, double error = -1) {
    ComparedRun run;
    run.label = label;
    run.record.end = RunEnd::done;
    run.record.verdict = verdict;
    run.record.data_grade = "typical";
    run.record.because = "The free edge decides.";
    run.record.error_meaning = "mesh";
    run.record.share = {share, error < 0 ? std::nullopt : std::optional(error)};
    run.record.edge_stretch_percent = {12 * share, 0.4};
    run.record.flange_angle_deg = {88.3, 0.2};
    run.record.springback_deg = {1.7, 0.2};
    run.record.web_lift_mm = {0.41, std::nullopt};
    run.record.thinning_percent = {6.1, 0.3};
    run.record.flange_depth_mm = {16.02, std::nullopt};
    run.record.edge_stretch = {{0, 10, 20}, {8, 9, 12 * share}};
    run.record.flange_angle = {{0, 10, 20}, {88, 88.2, 88.6}};
    return run;
}

inline ComparedRun failed_run(const std::string& label, const std::string& reason) {
    ComparedRun run;
    run.label = label;
    run.record.end = RunEnd::no_equilibrium;
    run.record.reason = reason;
    return run;
}

} // namespace flangewright::compare
