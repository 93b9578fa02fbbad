// Whether a part's own edge has something to say about what such an edge bears.
#pragma once

#include "io/build_log/readings.hpp"
#include "solver/job/job.hpp"

namespace flangewright::build_log {

/// What the marks along the edge bear witness to. Engineering strains.
struct EdgeWitness {
    bool says_something = false; ///< the limit known so far is not what this edge showed
    double stretch = 0; ///< borne without a crack; the new limit where it says something
    std::optional<double> cracked; ///< the least stretch at which a pair cracked
    double gauge = 0; ///< mm between the marks of `stretch`
    int n_pairs = 0;
    std::string because; ///< a plain sentence, either way
};

/// Looks at marks of the edge as it was cut, before any trim, anneal or heat treatment. A pair that
/// is whole shows that the edge bears at least its stretch: it teaches something only above the
/// limit known so far, by more than 0.1 mm misread. A crack below that limit shows that it is too
/// high; the limit is then the largest stretch borne below every crack. Whole pairs below a limit
/// and cracks above it agree with it and change nothing. At least three pairs (common practice, no
/// source). Units: -. Source: derived here. Fails: never; what can't be said is in `because`.
[[nodiscard]] EdgeWitness edge_witness(
    const Readings& readings, const job::Job& job, const std::optional<double>& known_limit
);

} // namespace flangewright::build_log
