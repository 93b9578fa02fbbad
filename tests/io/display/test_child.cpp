#include "io/display/child.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cstdlib>
#include <stdexcept>
#include <thread>

namespace flangewright::display {
namespace {

const ChildPlace no_display{.display = "", .patience_ms = 60000};

TEST(Child, HandsOverWhatItMade) {
    const ChildWork done = work_in_child(no_display, [](const HandOver& hand_over) {
        hand_over({"first", std::string("a\0b", 3)});
        hand_over({"second", std::string(300000, 'x')});
        hand_over({"empty", ""});
    });
    EXPECT_TRUE(done.finished);
    ASSERT_EQ(done.made.size(), 3U);
    EXPECT_EQ(done.made[0], NamedBytes("first", std::string("a\0b", 3)));
    EXPECT_EQ(done.made[1].second.size(), 300000U);
    EXPECT_EQ(done.made[2], NamedBytes("empty", ""));
}

TEST(Child, ThatAbortsLeavesTheProgramAliveAndWhatItMadeBefore) {
    const ChildWork done = work_in_child(no_display, [](const HandOver& hand_over) {
        hand_over({"first", "whole"});
        std::abort();
    });
    EXPECT_FALSE(done.finished);
    EXPECT_TRUE(done.in_time);
    EXPECT_THAT(done.made, testing::ElementsAre(NamedBytes("first", "whole")));
}

TEST(Child, ThatThrowsIsNotFinished) {
    const ChildWork done = work_in_child(no_display, [](const HandOver&) {
        throw std::runtime_error("library trouble");
    });
    EXPECT_FALSE(done.finished);
    EXPECT_TRUE(done.made.empty());
}

TEST(Child, ThatHangsIsEndedInTime) {
    const auto start = std::chrono::steady_clock::now();
    const ChildWork done =
        work_in_child({.display = "", .patience_ms = 200}, [](const HandOver& give) {
            give({"first", "whole"});
            std::this_thread::sleep_for(std::chrono::minutes(10));
        });
    EXPECT_FALSE(done.in_time);
    EXPECT_FALSE(done.finished);
    EXPECT_EQ(done.made.size(), 1U);
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(30));
}

TEST(Child, GetsItsDisplayAndLeavesTheProgramsAlone) {
    const char* before = std::getenv("DISPLAY");
    const std::string kept = before == nullptr ? "" : before;
    const ChildWork done =
        work_in_child({.display = ":4242", .patience_ms = 60000}, [](const HandOver& hand_over) {
            hand_over({"display", std::getenv("DISPLAY")});
        });
    EXPECT_THAT(done.made, testing::ElementsAre(NamedBytes("display", ":4242")));
    const char* after = std::getenv("DISPLAY");
    EXPECT_EQ(after == nullptr ? "" : std::string(after), kept);
}

} // namespace
} // namespace flangewright::display
