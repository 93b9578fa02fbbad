// Watches a bend-down in passes: what the free edge bears on the way, and what each pass leaves.
#pragma once

#include "solver/process/job_result.hpp"
#include "solver/process/workpiece.hpp"

#include <string>
#include <vector>

namespace flangewright::process {

/// Writes into a record, which may hold what an earlier run of the same step saw.
class PassWatch {
public:
    /// An empty record is begun.
    PassWatch(const Workpiece& piece, DriveRecord& record);

    /// Told of each accepted increment.
    void look(const Workpiece& piece, double share_done);
    /// Told of the state the step ends in; what is not finished of its passes ends here if it is
    /// done.
    void finish(const Workpiece& piece, StopReason reason);

private:
    void take_edge(const Workpiece& piece);
    void end_pass(const Workpiece& piece);

    DriveRecord& record_;
    std::vector<double> angles_;
    std::vector<double> ends_;
};

/// A sentence when the edge was stretched further on the way than it is at the end, where it may
/// have split; else empty. Units: log strain. Source: none needed. Fails: never.
[[nodiscard]] std::string warning_of_the_way(const DriveRecord& record, double tension_at_end);

/// The same bend-down with the drive even, on the same mesh. Costs what an even bend-down does.
/// Empty when it finds no equilibrium or is stopped. Units: mm, rad. Source: none needed. Fails:
/// never.
[[nodiscard]] std::optional<DriveRecord>
drive_evenly(const job::Job& job, int n_threads, const Monitor& monitor);

} // namespace flangewright::process
