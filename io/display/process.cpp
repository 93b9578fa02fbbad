#include "io/display/process.hpp"

#include <fcntl.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <csignal>
#include <thread>

namespace flangewright::display {

Ending wait_for(pid_t child, int patience_ms) {
    using Clock = std::chrono::steady_clock;
    const auto last = Clock::now() + std::chrono::milliseconds(patience_ms);
    while (true) {
        int status = 0;
        const pid_t ended = ::waitpid(child, &status, WNOHANG);
        if (ended == child) {
            return WIFEXITED(status) && WEXITSTATUS(status) == 0 ? Ending::cleanly : Ending::badly;
        }
        if (ended < 0 && errno != EINTR) {
            return Ending::badly;
        }
        if (Clock::now() >= last) {
            return Ending::not_yet;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
}

void end_process(pid_t child) {
    constexpr int grace_ms = 2000;
    ::kill(child, SIGTERM);
    if (wait_for(child, grace_ms) == Ending::not_yet) {
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
    }
}

void settle_child(pid_t parent) {
    for (const int number : {SIGINT, SIGTERM, SIGHUP, SIGPIPE, SIGABRT, SIGSEGV}) {
        std::signal(number, SIG_DFL);
    }
    sigset_t none;
    ::sigemptyset(&none);
    ::sigprocmask(SIG_SETMASK, &none, nullptr);
    // Its own group keeps a Ctrl-C on the terminal for the program, which ends the child itself.
    ::setpgid(0, 0);
    ::prctl(PR_SET_PDEATHSIG, SIGTERM);
    if (::getppid() != parent) {
        ::_exit(1); // the parent died before the line above took hold
    }
}

void silence() {
    const int nowhere = ::open("/dev/null", O_RDWR | O_CLOEXEC);
    if (nowhere < 0) {
        return;
    }
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        ::dup2(nowhere, stream);
    }
}

} // namespace flangewright::display
