// How long work tells what it has reached, and how it is asked to stop.
#pragma once

#include <functional>
#include <stop_token>
#include <string>

namespace flangewright {

/// One line of progress.
struct Progress {
    std::string step; ///< name of the step in the user's words
    double share_done = 0; ///< 0 to 1
    double flange_angle = 0; ///< reached so far, rad
    int n_increments = 0; ///< increments accepted in this step
    int n_iterations = 0; ///< Newton iterations in this step
    double seconds_left = -1; ///< estimate; negative while unknown
};

/// Who listens, and the request to stop. A default-made one listens to nothing and never stops.
struct Monitor {
    std::function<void(const Progress&)> on_progress;
    std::stop_token stop;

    void report(const Progress& progress) const {
        if (on_progress) {
            on_progress(progress);
        }
    }
};

} // namespace flangewright
