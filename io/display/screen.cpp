#include "io/display/screen.hpp"

#include "io/display/process.hpp"

#include <dlfcn.h>
#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <utility>

namespace flangewright::display {

namespace {

constexpr int answer_patience_ms = 5000;

/// Opens and closes the display by the X library, found while running: no header, no link.
bool opens(const std::string& display) {
    void* library = ::dlopen("libX11.so.6", RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr) {
        return false;
    }
    using Open = void* (*)(const char*);
    const auto open = reinterpret_cast<Open>(::dlsym(library, "XOpenDisplay"));
    return open != nullptr && open(display.c_str()) != nullptr;
}

/// In a child, since a display that accepts and stays silent would hang the program.
bool answers(const std::string& display) {
    const pid_t parent = ::getpid();
    const pid_t child = ::fork();
    if (child == 0) {
        settle_child(parent);
        silence();
        ::_exit(opens(display) ? 0 : 1);
    }
    if (child < 0) {
        return false;
    }
    const Ending ending = wait_for(child, answer_patience_ms);
    if (ending == Ending::not_yet) {
        end_process(child);
    }
    return ending == Ending::cleanly;
}

/// The number the virtual display writes once it is ready; empty when it does not come.
std::string number_from(int file, int patience_ms) {
    std::string number;
    pollfd waiting{file, POLLIN, 0};
    while (number.find('\n') == std::string::npos) {
        const int n_ready = ::poll(&waiting, 1, patience_ms);
        if (n_ready < 0 && errno == EINTR) {
            continue;
        }
        std::array<char, 32> part{};
        const ssize_t n = n_ready > 0 ? ::read(file, part.data(), part.size()) : 0;
        if (n <= 0) {
            return {};
        }
        number.append(part.data(), static_cast<std::size_t>(n));
    }
    number.erase(number.find('\n'));
    const bool is_number =
        !number.empty() && std::ranges::all_of(number, [](char c) { return c >= '0' && c <= '9'; });
    return is_number ? number : std::string();
}

[[noreturn]] void be_the_screen(const std::string& program, int told) {
    silence();
    const std::string descriptor = std::to_string(told);
    ::fcntl(told, F_SETFD, 0);
    ::execlp(
        program.c_str(),
        program.c_str(),
        "-displayfd",
        descriptor.c_str(),
        "-screen",
        "0",
        "1920x1200x24",
        "-nolisten",
        "tcp",
        // Between two pictures nobody is connected; a reset then would turn the next one away.
        "-noreset",
        static_cast<char*>(nullptr)
    );
    ::_exit(127);
}

/// A started virtual display.
struct Started {
    std::string name;
    pid_t process = 0;
};

Started start(const ScreenSearch& search) {
    std::array<int, 2> ends{};
    if (search.program.empty() || ::pipe2(ends.data(), O_CLOEXEC) != 0) {
        return {};
    }
    const pid_t parent = ::getpid();
    const pid_t child = ::fork();
    if (child == 0) {
        settle_child(parent);
        be_the_screen(search.program, ends[1]);
    }
    ::close(ends[1]);
    const std::string number = child > 0 ? number_from(ends[0], search.patience_ms) : std::string();
    ::close(ends[0]);
    if (!number.empty()) {
        return {":" + number, child};
    }
    if (child > 0) {
        end_process(child);
    }
    return {};
}

} // namespace

ScreenSearch Screen::from_surroundings() {
    const char* display = std::getenv("DISPLAY");
    return {.display = display == nullptr ? "" : display};
}

Result<Screen> Screen::find(const ScreenSearch& search) {
    if (!search.display.empty() && answers(search.display)) {
        return Screen(search.display, 0);
    }
    Started started = start(search);
    if (started.process != 0) {
        return Screen(std::move(started.name), started.process);
    }
    return tl::make_unexpected(OutsideProblem{
        .doing = "finding a display for the pictures",
        .object = search.display.empty() ? "no display is set" : search.display,
        .remedy = "install the package xvfb, or run where an X display answers"});
}

Screen::Screen(std::string name, pid_t process) : name_(std::move(name)), process_(process) {}

Screen::Screen(Screen&& other) noexcept
    : name_(std::move(other.name_)), process_(std::exchange(other.process_, 0)) {}

Screen& Screen::operator=(Screen&& other) noexcept {
    std::swap(name_, other.name_);
    std::swap(process_, other.process_);
    return *this;
}

Screen::~Screen() {
    if (process_ > 0) {
        end_process(process_);
    }
}

} // namespace flangewright::display
