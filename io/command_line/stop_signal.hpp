// Ctrl-C and a request to end, turned into a stop request that the solver looks at.
#pragma once

#include <signal.h>

#include <array>
#include <stop_token>
#include <thread>

namespace flangewright::command_line {

/// While it lives, the first SIGINT or SIGTERM asks to stop and the second ends the program at
/// once with exit code 130. Only one may live at a time.
class StopSignal {
public:
    StopSignal();
    ~StopSignal();
    StopSignal(const StopSignal&) = delete;
    StopSignal& operator=(const StopSignal&) = delete;

    [[nodiscard]] std::stop_token token() const { return source_.get_token(); }

private:
    void watch();

    std::stop_source source_;
    std::array<int, 2> pipe_{-1, -1};
    std::array<struct sigaction, 2> before_{};
    std::thread watcher_;
};

} // namespace flangewright::command_line
