#include "io/command_line/stop_signal.hpp"

#include "io/command_line/command_line.hpp"
#include "mesh/base/check.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>

namespace flangewright::command_line {

namespace {

constexpr std::array signals{SIGINT, SIGTERM};
constexpr char stop_byte = 's';
constexpr char end_byte = 'e';

// A handler may only do what signal-safety(7) lists: it writes one byte, a thread does the rest.
volatile std::sig_atomic_t handler_pipe = -1;
volatile std::sig_atomic_t owner = 0;

extern "C" void pass_on(int signal) {
    const int kept_errno = errno;
    if (getpid() == static_cast<pid_t>(owner)) {
        [[maybe_unused]] const ssize_t n = write(static_cast<int>(handler_pipe), &stop_byte, 1);
    } else { // a child that inherited the handler
        std::signal(signal, SIG_DFL);
        raise(signal);
    }
    errno = kept_errno;
}

} // namespace

StopSignal::StopSignal() {
    // A child process may have inherited its parent's, whose watcher it lacks.
    check(
        handler_pipe < 0 || getpid() != static_cast<pid_t>(owner),
        "only one stop signal is listened for at a time"
    );
    check(pipe2(pipe_.data(), O_CLOEXEC) == 0, "a pipe can be opened");
    owner = static_cast<std::sig_atomic_t>(getpid());
    handler_pipe = pipe_[1];
    watcher_ = std::thread([this] { watch(); });
    struct sigaction action {};
    action.sa_handler = pass_on;
    action.sa_flags = SA_RESTART;
    sigemptyset(&action.sa_mask);
    for (std::size_t i = 0; i < signals.size(); ++i) {
        sigaction(signals.at(i), &action, &before_.at(i));
    }
}

StopSignal::~StopSignal() {
    for (std::size_t i = 0; i < signals.size(); ++i) {
        sigaction(signals.at(i), &before_.at(i), nullptr);
    }
    [[maybe_unused]] const ssize_t n = write(pipe_[1], &end_byte, 1);
    watcher_.join();
    handler_pipe = -1;
    close(pipe_[0]);
    close(pipe_[1]);
}

void StopSignal::watch() {
    char byte = 0;
    for (;;) {
        const ssize_t n = read(pipe_[0], &byte, 1);
        if (n < 0 && errno == EINTR) {
            continue;
        }
        if (n != 1 || byte == end_byte) {
            return;
        }
        if (source_.stop_requested()) {
            _exit(interrupted); // asked twice: the user will not wait
        }
        source_.request_stop();
    }
}

} // namespace flangewright::command_line
