#include "io/display/screen.hpp"
#include "tests/support/trial_folder.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <fstream>
#include <thread>

namespace flangewright::display {
namespace {

const std::string no_such_program = "/nowhere/at/all";

bool can_start_a_virtual_display() {
    return Screen::find({.display = "", .program = "Xvfb"}).has_value();
}

bool is_running(pid_t process) {
    return ::kill(process, 0) == 0;
}

/// Waits up to ten seconds: a process ends some time after it was told to.
bool ends_soon(pid_t process) {
    for (int i = 0; i < 1000 && is_running(process); ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    return !is_running(process);
}

TEST(Screen, IsRefusedWithARemedyWhenThereIsNone) {
    const Result<Screen> screen = Screen::find({.display = "", .program = no_such_program});
    ASSERT_FALSE(screen);
    EXPECT_EQ(screen.error().doing, "finding a display for the pictures");
    EXPECT_EQ(screen.error().object, "no display is set");
    EXPECT_EQ(screen.error().remedy, "install the package xvfb, or run where an X display answers");
}

TEST(Screen, IsNotADisplayThatDoesNotAnswer) {
    EXPECT_FALSE(Screen::find({.display = ":4242", .program = no_such_program}));
}

TEST(Screen, IsNotAProgramThatStaysSilent) {
    const support::TrialFolder folder;
    const std::filesystem::path program = folder.path() / "silent";
    std::ofstream(program) << "#!/bin/sh\nexec sleep 600\n";
    std::filesystem::permissions(program, std::filesystem::perms::owner_all);
    const auto start = std::chrono::steady_clock::now();
    EXPECT_FALSE(Screen::find({.display = "", .program = program.string(), .patience_ms = 200}));
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(30));
    EXPECT_EQ(::waitpid(-1, nullptr, WNOHANG), -1) << "a child is left behind";
    EXPECT_EQ(errno, ECHILD);
}

TEST(Screen, IsNotAProgramThatAnswersNonsense) {
    const support::TrialFolder folder;
    const std::filesystem::path program = folder.path() / "nonsense";
    std::ofstream(program) << "#!/bin/sh\neval \"echo nonsense >&$2\"\nexec sleep 600\n";
    std::filesystem::permissions(program, std::filesystem::perms::owner_all);
    EXPECT_FALSE(Screen::find({.display = "", .program = program.string(), .patience_ms = 5000}));
}

TEST(Screen, OfOurOwnAnswersAndEndsWithItsObject) {
    if (!can_start_a_virtual_display()) {
        GTEST_SKIP() << "the package xvfb is not installed";
    }
    pid_t process = 0;
    {
        const Result<Screen> screen = Screen::find({.display = "", .program = "Xvfb"});
        ASSERT_TRUE(screen);
        process = screen->process();
        ASSERT_GT(process, 0);
        EXPECT_TRUE(is_running(process));
        const Result<Screen> second =
            Screen::find({.display = screen->name(), .program = no_such_program});
        ASSERT_TRUE(second) << "the virtual display does not answer";
        EXPECT_EQ(second->name(), screen->name());
        EXPECT_EQ(second->process(), 0) << "a display that was found is not ours to end";
    }
    EXPECT_FALSE(is_running(process));
}

TEST(Screen, OfOurOwnEndsWhenTheProgramIsKilled) {
    if (!can_start_a_virtual_display()) {
        GTEST_SKIP() << "the package xvfb is not installed";
    }
    std::array<int, 2> ends{};
    ASSERT_EQ(::pipe(ends.data()), 0);
    const pid_t program = ::fork();
    if (program == 0) {
        const Result<Screen> screen = Screen::find({.display = "", .program = "Xvfb"});
        const pid_t process = screen ? screen->process() : -1;
        if (::write(ends[1], &process, sizeof(process)) == sizeof(process)) {
            ::pause();
        }
        ::_exit(1);
    }
    pid_t process = 0;
    ASSERT_EQ(::read(ends[0], &process, sizeof(process)), static_cast<ssize_t>(sizeof(process)));
    ASSERT_GT(process, 0);
    EXPECT_TRUE(is_running(process));
    ::kill(program, SIGKILL);
    ::waitpid(program, nullptr, 0);
    EXPECT_TRUE(ends_soon(process));
    ::close(ends[0]);
    ::close(ends[1]);
}

} // namespace
} // namespace flangewright::display
