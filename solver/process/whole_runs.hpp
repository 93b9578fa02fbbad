// The whole runs a search has made: which is best, between which the answer lies, and what they
// have shown the trials to miss.
#pragma once

#include "solver/process/limit_reading.hpp"

#include <utility>
#include <vector>

namespace flangewright::process {

/// A whole run.
struct Check {
    double value = 0;
    std::optional<Reading> reading; ///< nothing: no balance
};

/// Values and figures of a search's whole runs. Units: those of the search. Source: derived here
/// (docs/theory-findings.md, "Solve for").
class WholeRuns {
public:
    /// The search must outlive it.
    explicit WholeRuns(const ValueSearch& search) : search_(search) {}

    /// True when it is the best one now.
    bool add(const Check& now);

    [[nodiscard]] int n() const { return static_cast<int>(checks_.size()); }
    [[nodiscard]] const std::optional<Check>& best() const { return best_; }
    [[nodiscard]] bool is_checked(double value) const;
    [[nodiscard]] bool is_known(double value) const; ///< checked, and with a balance
    /// The bound that the search strives for, and the other one.
    [[nodiscard]] double furthest() const;
    [[nodiscard]] double nearest() const;
    [[nodiscard]] bool keeps_share() const;
    /// The best one is near enough to what is wanted.
    [[nodiscard]] bool is_near_enough() const;
    /// Neighbours of which one is short of what is wanted and one beyond.
    [[nodiscard]] std::optional<std::pair<Check, Check>> sides() const;
    /// Bounds less what lies past a run without balance.
    [[nodiscard]] std::pair<double, double> stretch() const;

private:
    [[nodiscard]] bool is_angle() const { return search_.aim == Aim::flange_angle; }
    [[nodiscard]] bool is_better(const Check& one, const Check& other) const;

    const ValueSearch& search_;
    std::vector<Check> checks_;
    std::optional<Check> best_;
};

/// What was told of a value: of its whole run if there was one, else of its first trial. Units:
/// those of the search. Source: none needed. Fails: nothing when neither was made.
[[nodiscard]] std::optional<ValueTrial> told_at(const std::vector<ValueTrial>& told, double value);

/// By how much whole runs lie above what the trials let expect.
class TrialMisses {
public:
    /// Trials stand beside this run from now on.
    void begin_at(double value) { misses_ = {{value, 0}}; }
    void add(double value, double sign);
    /// Sets what trials say of the whole part right. Units: those of the reading.
    [[nodiscard]] Reading corrected(const Reading& reading, double value, Aim aim) const;

private:
    struct Miss {
        double value = 0;
        double sign = 0;
    };
    [[nodiscard]] double at(double value) const;

    std::vector<Miss> misses_; ///< by value
};

} // namespace flangewright::process
