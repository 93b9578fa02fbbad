// One change to a job that makes it less likely to split.
#pragma once

#include "solver/findings/findings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::process {

/// What is changed.
enum class RemedyKind {
    less_depth,
    larger_nose,
    larger_plan_radius,
    better_edge, ///< as cut
    better_trimmed_edge,
    anneal_first, ///< before the return bend
    turned_grain, ///< rolling direction turned by 90 deg
    softer_temper, ///< of the same alloy
};

/// One change, tried. Units: mm, rad, -.
struct Remedy {
    RemedyKind kind = RemedyKind::less_depth;
    double from = 0; ///< of depth the flange's own, of a radius or the grain the job's
    double to = 0;
    std::optional<material::EdgeFinish> finish = {}; ///< of a better edge
    double share = 0; ///< of the limit, expected with the change
    findings::VerdictWord word = findings::VerdictWord::close; ///< expected
    std::string sheet_now = {}; ///< of a softer temper: the job's sheet by name
    std::string sheet = {}; ///< the softer one
};

/// What would help, best first.
struct Remedies {
    double share_as_run = 0; ///< the verdict's
    double share_of_model = 0; ///< of the same limit on the slice the changes were tried on; 0: the
                               ///< slice has no such place, and nothing can be told of it
    std::vector<Remedy> helpful; ///< by growing share; none: nothing tried helps
    int n_failed = 0; ///< changes that found no balance of forces
    bool knows_finish = true; ///< the edge's is stated; else no better one can be weighed
    int n_tempers = 0; ///< softer tempers tried

    /// Whether the slice says enough of the part: their shares differ by a third of the part's at
    /// most. Else the part's ends or openings decide, and only a better edge is looked at.
    /// Units: none. Source: own choice (docs/theory.md, "What would help"). Fails: never.
    [[nodiscard]] bool is_slice_like_part() const {
        const double off = share_of_model - share_as_run;
        return 3 * (off < 0 ? -off : off) <= share_as_run;
    }
};

} // namespace flangewright::process
