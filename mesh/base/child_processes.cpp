#include "mesh/base/child_processes.hpp"

#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdint>
#include <thread>

namespace flangewright {

namespace {

struct Child {
    int index = 0;
    pid_t process = -1;
    int pipe = -1; // the end we read
};

void write_all(int pipe, const void* data, std::size_t size) {
    const auto* bytes = static_cast<const char*>(data);
    while (size > 0) {
        const ssize_t n = write(pipe, bytes, size);
        if (n <= 0) {
            return;
        }
        bytes += n;
        size -= static_cast<std::size_t>(n);
    }
}

bool read_all(int pipe, void* data, std::size_t size) {
    auto* bytes = static_cast<char*>(data);
    while (size > 0) {
        const ssize_t n = read(pipe, bytes, size);
        if (n <= 0) {
            return false;
        }
        bytes += n;
        size -= static_cast<std::size_t>(n);
    }
    return true;
}

[[noreturn]] void be_child(int pipe, const std::function<Numbers(int)>& work, int index) {
    // Ctrl-C and the end of the parent end the child too.
    std::signal(SIGINT, SIG_DFL);
    std::signal(SIGTERM, SIG_DFL);
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    Numbers answer;
    try {
        answer = work(index);
    } catch (...) {
        answer.reset(); // told by the missing answer
    }
    if (answer) {
        const std::uint64_t n = answer->size();
        write_all(pipe, &n, sizeof n);
        write_all(pipe, answer->data(), n * sizeof(double));
    }
    _exit(0); // nothing of the parent's is closed or flushed twice
}

std::optional<Child> start(const std::function<Numbers(int)>& work, int index) {
    int ends[2];
    if (pipe(ends) != 0) {
        return std::nullopt;
    }
    const pid_t process = fork();
    if (process == 0) {
        close(ends[0]);
        be_child(ends[1], work, index);
    }
    close(ends[1]);
    if (process < 0) {
        close(ends[0]);
        return std::nullopt;
    }
    return Child{index, process, ends[0]};
}

// A few numbers fit into the pipe's own buffer, so they are read when the child has ended.
Numbers answer_of(const Child& child) {
    constexpr std::uint64_t most = 1000;
    std::uint64_t n = 0;
    if (!read_all(child.pipe, &n, sizeof n) || n > most) {
        return std::nullopt;
    }
    std::vector<double> values(n);
    return read_all(child.pipe, values.data(), n * sizeof(double)) ? Numbers(values) : std::nullopt;
}

} // namespace

std::vector<Numbers> in_child_processes(
    int n,
    int n_at_once,
    const std::function<Numbers(int)>& work,
    const std::function<void(int n_done)>& on_done,
    const std::stop_token& stop
) {
    std::vector<Numbers> answers(static_cast<std::size_t>(n));
    std::vector<Child> running;
    int next = 0;
    int n_done = 0;
    while (n_done < n) {
        while (next < n && static_cast<int>(running.size()) < n_at_once && !stop.stop_requested()) {
            if (const std::optional<Child> child = start(work, next++)) {
                running.push_back(*child);
            } else {
                ++n_done;
            }
        }
        if (stop.stop_requested()) {
            for (const Child& child : running) {
                kill(child.process, SIGKILL);
            }
            if (running.empty()) {
                return answers;
            }
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
        std::erase_if(running, [&](const Child& child) {
            if (waitpid(child.process, nullptr, WNOHANG) == 0) {
                return false;
            }
            answers[static_cast<std::size_t>(child.index)] = answer_of(child);
            close(child.pipe);
            on_done(++n_done);
            return true;
        });
    }
    return answers;
}

} // namespace flangewright
