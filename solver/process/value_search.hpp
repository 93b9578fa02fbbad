// Looks for the one value of a job that gives a wanted angle, or just keeps a share of the limits.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/process/quick_trials.hpp"
#include "solver/process/run_job.hpp"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace flangewright::process {

/// What the value shall bring about.
enum class Aim {
    flange_angle, ///< after release: loose_angle()
    most_share, ///< the largest value that keeps the share
    least_share, ///< the smallest that does
};

/// What is looked for. The value is a length in mm or an angle in rad.
struct ValueSearch {
    Aim aim = Aim::flange_angle;
    double wanted = 0; ///< angle, rad; share of a limit, 0: all that the verdict calls `holds`
    double figure_tolerance = 0; ///< of the angle, rad
    double tolerance = 0; ///< of the value, where a share is kept
    double from = 0; ///< bounds
    double to = 0;
    double as_case = 0; ///< where to begin
    int n_threads = 1;
    int n_checks_most = 8; ///< whole runs, the first one included
};

/// One solve that was made.
struct ValueTrial {
    bool is_check = false; ///< the whole part on the case's own mesh; else quick
    double value = 0;
    std::optional<double> figure; ///< angle or share; quick: as expected of the whole part;
                                  ///< nothing: no balance, or not known
    double seconds = 0;
};

enum class SearchEnd {
    found,
    at_bound, ///< the furthest value allowed keeps the share, too
    none_in_bounds,
    not_known, ///< a needed limit of the sheet is not known, or the part is never let go
    no_balance,
    not_near, ///< the whole runs allowed are used; the nearest is given
    stopped,
};

/// How it ended. `value` and `check` belong together: the run that comes nearest.
struct ValueFound {
    SearchEnd end = SearchEnd::stopped;
    double value = 0;
    std::optional<double> figure;
    std::optional<ValueTrial> at_from; ///< where nothing was found; the last solve there
    std::optional<ValueTrial> at_to;
    std::vector<ValueTrial> trials; ///< in the order they were made
    std::shared_ptr<const JobResult> check; ///< empty: none reached its end
};

/// The works, replaceable so that tests are quick.
struct SearchWorks {
    QuickWork quick;
    std::function<Result<JobResult>(const job::Job&, const RunOptions&, const Monitor&)> run_job;
    std::function<double(double)> rounded; ///< as the value will be written
    std::function<void(const ValueTrial&)> on_trial; ///< hears of each as it ends
};

/// A whole run as the case stands, quick trials set beside it, a whole run where these put the
/// value, and again with the trials set beside that, until the whole run itself is near enough:
/// within the tolerance of the angle; or the share kept and the value no further than the tolerance
/// from where it would not be. Once whole runs lie on both sides no later one leaves the stretch
/// between them. Units: mm, rad. Source: derived here (docs/theory-findings.md, "Solve for").
/// Fails: see SearchEnd; trouble of the mesh library ends it as no balance.
[[nodiscard]] ValueFound
find_value(const ValueSearch& search, const SearchWorks& works, const Monitor& monitor);

} // namespace flangewright::process
