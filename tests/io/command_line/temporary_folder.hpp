// A folder of its own for a test, gone afterwards.
#pragma once

#include "tests/support/trial_folder.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace flangewright::command_line {

class WithFolder : public ::testing::Test {
protected:
    std::filesystem::path write(const std::string& name, const std::string& text) {
        std::ofstream(folder_ / name) << text;
        return folder_ / name;
    }
    static std::string text_of(const std::filesystem::path& path) {
        std::ostringstream text;
        text << std::ifstream(path).rdbuf();
        return text.str();
    }

    support::TrialFolder trial_;
    std::filesystem::path folder_ = trial_.path();
};

} // namespace flangewright::command_line
