// Quick solves beside one whole run, and what they say of the whole part at another value.
#pragma once

#include "mesh/base/child_processes.hpp"
#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/slice_share.hpp"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace flangewright::process {

/// How a job depends on the value, and how it is solved quickly.
struct QuickWork {
    std::function<std::optional<job::Job>(double)> job_at; ///< nothing: not allowed
    std::function<Numbers(const job::Job&, const findings::Verdict&)> solve = angle_and_shares;
    int n_at_once = 1;
};

/// One quick solve.
struct QuickAnswer {
    Numbers numbers; ///< as angle_and_shares(); nothing: no balance of forces
    double seconds = 0;
};

/// What a whole part is expected to do.
struct Expected {
    double angle = 0; ///< rad; NaN when never let go
    std::vector<LimitAnswer> limits;
};

/// Remembers what it solved. Each solve is in a process of its own.
class QuickTrials {
public:
    /// `on_trial` hears of each value solved for the first time.
    QuickTrials(
        QuickWork work,
        const Monitor& monitor,
        std::function<void(double value, const QuickAnswer&, const std::optional<Expected>&)>
            on_trial
    );

    /// From now on this whole run is what the quick ones are set beside. A thin slice is solved
    /// where its shares come near to the run's, else the whole part on a quick mesh; of an angle
    /// always the slice. False when neither finds its balance. Units: none. Source: as
    /// find_remedies(). Fails: as said.
    [[nodiscard]] bool
    stand_beside(double value, const std::shared_ptr<const JobResult>& run, bool needs_shares);

    /// One for each value; nothing at all when stopped, nothing for one without balance. The
    /// angle of the run and what the quick solve's changed by; the limits as expected_limits().
    /// Units: rad, none. Source: derived here (docs/theory-findings.md, "Solve for").
    /// Fails: as said.
    [[nodiscard]] std::vector<std::optional<Expected>> expect(const std::vector<double>& values);

    [[nodiscard]] bool uses_slice() const { return uses_slice_; }

private:
    [[nodiscard]] bool solve(const std::vector<double>& values);
    [[nodiscard]] std::optional<Expected> expected(const QuickAnswer& answer) const;
    [[nodiscard]] bool is_like(const std::vector<double>& numbers) const;

    QuickWork work_;
    const Monitor& monitor_;
    std::function<void(double, const QuickAnswer&, const std::optional<Expected>&)> on_trial_;
    std::map<double, QuickAnswer> answers_;
    bool uses_slice_ = true;
    std::shared_ptr<const JobResult> first_; ///< its mesh and steps say where to cut the slice
    findings::Verdict as_run_;
    double angle_as_run_ = 0;
    std::vector<double> beside_; ///< the quick numbers at the run's own value
};

} // namespace flangewright::process
