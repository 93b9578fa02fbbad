// Work in processes of its own: answers in order, and what fails answers nothing.
#include "mesh/base/child_processes.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <csignal>
#include <stdexcept>
#include <thread>

namespace flangewright {
namespace {

void say_nothing(int /*n_done*/) {}

TEST(ChildProcesses, AnswerInTheirOrder) {
    int told = 0;
    const std::vector<Numbers> answers = in_child_processes(
        5,
        2,
        [](int i) {
            return Numbers(std::vector<double>{1.0 * i, 0.5});
        },
        [&told](int n_done) { told = n_done; },
        {}
    );
    ASSERT_EQ(answers.size(), 5U);
    for (std::size_t i = 0; i < answers.size(); ++i) {
        ASSERT_TRUE(answers[i].has_value());
        EXPECT_EQ(*answers[i], (std::vector<double>{1.0 * static_cast<double>(i), 0.5}));
    }
    EXPECT_EQ(told, 5);
}

TEST(ChildProcesses, AnswerNothingWhenTheyFail) {
    const std::vector<Numbers> answers = in_child_processes(
        4,
        4,
        [](int i) {
            if (i == 0) {
                throw std::runtime_error("no");
            }
            if (i == 1) {
                std::raise(SIGKILL);
            }
            return i == 2 ? Numbers() : Numbers(std::vector<double>{7});
        },
        say_nothing,
        {}
    );
    EXPECT_FALSE(answers[0] || answers[1] || answers[2]);
    ASSERT_TRUE(answers[3].has_value());
    EXPECT_EQ(answers[3]->at(0), 7);
}

TEST(ChildProcesses, ChangeNothingHere) {
    int value = 1;
    const auto answers = in_child_processes(
        1,
        1,
        [&value](int /*index*/) {
            value = 2;
            return Numbers(std::vector<double>{1.0 * value});
        },
        say_nothing,
        {}
    );
    EXPECT_EQ(value, 1);
    ASSERT_TRUE(answers[0].has_value());
    EXPECT_EQ(answers[0]->at(0), 2);
}

TEST(ChildProcesses, EndWhenAskedToStop) {
    std::stop_source source;
    const auto begin = std::chrono::steady_clock::now();
    std::thread asker([&source] {
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        source.request_stop();
    });
    const auto answers = in_child_processes(
        3,
        2,
        [](int /*index*/) {
            std::this_thread::sleep_for(std::chrono::seconds(60));
            return Numbers(std::vector<double>{1});
        },
        say_nothing,
        source.get_token()
    );
    asker.join();
    EXPECT_FALSE(answers[0] || answers[1] || answers[2]);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(30));
}

} // namespace
} // namespace flangewright
