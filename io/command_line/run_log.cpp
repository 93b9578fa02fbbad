#include "io/command_line/run_log.hpp"

#include "io/command_line/arguments.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;

constexpr const char* growing_name = "run.log.part";
constexpr const char* finished_name = "run.log";
constexpr const char* first_word = "flangewright";

bool starts_as_ours(const fs::path& path) {
    std::ifstream stream(path);
    std::string word;
    return stream >> word && word == first_word;
}

} // namespace

bool holds_run_log(const fs::path& folder) {
    return starts_as_ours(folder / finished_name) || starts_as_ours(folder / growing_name);
}

RunLog::RunLog(const fs::path& folder) : folder_(folder), stream_(folder / growing_name) {
    const std::time_t now = std::time(nullptr);
    stream_ << first_word << ' ' << program_version() << ", "
            << fmt::format("{:%Y-%m-%d %H:%M:%S}", fmt::localtime(now)) << std::endl;
}

void RunLog::note(const std::string& line) {
    const std::chrono::duration<double> since = std::chrono::steady_clock::now() - begin_;
    stream_ << fmt::format("{:9.2f} s  {}", since.count(), line) << std::endl;
}

Result<fs::path> RunLog::finish() {
    stream_.close();
    const fs::path target = folder_ / finished_name;
    std::error_code error;
    if (!stream_.fail()) {
        fs::rename(folder_ / growing_name, target, error);
    }
    if (stream_.fail() || error) {
        return tl::unexpected(OutsideProblem{
            "writing the log", target.string(), "free disk space and run again"});
    }
    return target;
}

} // namespace flangewright::command_line
