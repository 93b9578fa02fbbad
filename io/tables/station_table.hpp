// The results along the bend line as tables for a spreadsheet: stations.csv and edge.csv.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::tables {

/// One row per step and station; the head line carries the units, an unknown figure is an empty
/// cell. Units: mm, degrees, per cent, as the head line says. Source: docs/outputs.md.
/// Fails: never.
[[nodiscard]] std::string stations_csv(const job::Job& job, const process::JobResult& result);

/// One row per step and free-edge node: where the edge is and how far it has stretched.
/// Units: mm, -, per cent, as the head line says. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string edge_csv(const process::JobResult& result);

} // namespace flangewright::tables
