// A folder of its own for a test, gone afterwards.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace flangewright::command_line {

class WithFolder : public ::testing::Test {
protected:
    WithFolder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "fw-XXXXXX").string();
        folder_ = mkdtemp(pattern.data());
    }
    ~WithFolder() override { std::filesystem::remove_all(folder_); }

    std::filesystem::path write(const std::string& name, const std::string& text) {
        std::ofstream(folder_ / name) << text;
        return folder_ / name;
    }
    static std::string text_of(const std::filesystem::path& path) {
        std::ostringstream text;
        text << std::ifstream(path).rdbuf();
        return text.str();
    }

    std::filesystem::path folder_;
};

} // namespace flangewright::command_line
