// Runs one case as a user would, in a process of its own, and says how it ended.
#pragma once

#include <filesystem>
#include <string>

namespace flangewright::soak {

/// How a run ended.
enum class Ending {
    converged, ///< exit code 0 and whole, finite results
    explained, ///< refused or given up, in plain words
    unfinished, ///< still at work when its time was up, and stopped when asked
    broken, ///< crash, internal error, no answer, not-a-number, or silence
};

/// One run.
struct Trial {
    Ending ending = Ending::broken;
    std::string why; ///< one line
    double seconds = 0; ///< of a core
    double angle_held = 0; ///< deg, mean; 0 when nothing was bent
    double springback = 0; ///< deg, mean; 0 when nothing was released
    double springback_by_hand = 0; ///< deg
    int n_iterations = 0;
};

/// What a run may take.
struct TrialLimits {
    double seconds =
        60; ///< of a core, so that a busy machine changes nothing; then it is asked to stop
    double seconds_to_stop = 20; ///< of a core; then it is killed and counts as broken
    double seconds_asleep = 900; ///< on the wall; then likewise
};

/// Runs `program run case_file --out folder`. Units: as named. Source: none needed. Fails: never;
/// trouble is in the answer.
[[nodiscard]] Trial run_trial(
    const std::string& program,
    const std::filesystem::path& case_file,
    const std::filesystem::path& folder,
    const TrialLimits& limits
);

} // namespace flangewright::soak
