// How the flange's edge was finished, in the words of the sheet and of the summary.
#pragma once

#include "solver/job/job.hpp"

#include <string>

namespace flangewright::tables {

/// "filed", as case files have it; "not stated". Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string word_for(job::EdgeFinish finish);

/// "sawn as cut, filed after the trim": the trimmed edge only where a step trims. Units: none.
/// Source: none needed. Fails: never.
[[nodiscard]] std::string edge_words(const job::Job& job);

/// That no limit knows of the finish, a plain sentence. Units: none. Source:
/// solver/findings/verdict takes its limits from the sheet alone. Fails: never.
[[nodiscard]] std::string edge_limit_words();

} // namespace flangewright::tables
