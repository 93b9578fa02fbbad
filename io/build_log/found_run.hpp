// The results of a run that was made before, if they are still those of the case.
#pragma once

#include "io/build_log/prediction.hpp"
#include "solver/job/job.hpp"

#include <filesystem>

namespace flangewright::build_log {

/// What a run left that is needed here.
struct FoundRun {
    Prediction prediction;
    std::string page; ///< the text of sheet.html
};

/// Nothing is computed anew. Fails: with one problem, when the folder has no finished run, or the
/// case has changed since: anything its mechanics hang on, its title, or how the edges are
/// finished. Units: as Prediction. Source: docs/build-log.md.
[[nodiscard]] Result<FoundRun, key_file::InputProblem> find_run(
    const std::filesystem::path& folder, const job::Job& job, const std::string& program_version
);

} // namespace flangewright::build_log
