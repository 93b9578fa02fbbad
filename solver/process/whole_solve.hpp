// One whole run of a search.
#pragma once

#include "solver/process/value_search.hpp"

namespace flangewright::process {

/// What came of it.
struct WholeSolve {
    std::shared_ptr<const JobResult> result; ///< empty: no balance, or not allowed
    std::optional<double> close_share; ///< of the job's verdict; empty: not allowed
};

/// Solves the job with this value on the case's own mesh, with what the mesh leaves open and
/// without scatter; `number` stands in the progress. Units: those of the search. Source: none
/// needed. Fails: trouble of the mesh library is as no balance.
[[nodiscard]] WholeSolve solve_whole(
    const ValueSearch& search,
    const SearchWorks& works,
    double value,
    int number,
    const Monitor& monitor
);

} // namespace flangewright::process
