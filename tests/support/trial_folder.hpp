// A folder for one test, gone afterwards.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

namespace flangewright::support {

class TrialFolder {
public:
    TrialFolder() {
        std::string pattern =
            (std::filesystem::temp_directory_path() / "flangewright-test-XXXXXX").string();
        if (::mkdtemp(pattern.data()) == nullptr) {
            throw std::runtime_error("no folder for the test");
        }
        path_ = pattern;
    }
    ~TrialFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    TrialFolder(const TrialFolder&) = delete;
    TrialFolder& operator=(const TrialFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

} // namespace flangewright::support
