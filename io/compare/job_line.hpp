// A variant as one line for a shell, GNU parallel or a batch system.
#pragma once

#include "io/compare/study.hpp"

#include <string>
#include <string_view>

namespace flangewright::compare {

/// How the runs of a study are called.
struct JobWords {
    std::string program = "flangewright"; ///< name or path
    std::string sheets; ///< folder of own sheets; empty: as usual
    bool resumes = true; ///< a state that can't be used must not stop the job
};

/// The word as a shell takes it for one word. Units: none. Source: POSIX shell, 2.2.2. Fails:
/// never.
[[nodiscard]] std::string shell_word(std::string_view word);

/// "flangewright run CASE --out FOLDER --threads 1 ...", paths absolute. Units: none. Source: none
/// needed. Fails: never.
[[nodiscard]] std::string
job_line(const Variant& variant, const saved_state::RunMarkParts& options, const JobWords& words);

} // namespace flangewright::compare
