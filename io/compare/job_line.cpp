#include "io/compare/job_line.hpp"

namespace flangewright::compare {

namespace {

namespace fs = std::filesystem;

std::string path_word(const fs::path& path) {
    return shell_word(fs::absolute(path).lexically_normal().string());
}

} // namespace

std::string shell_word(std::string_view word) {
    constexpr std::string_view plain =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-+./=:,@";
    if (!word.empty() && word.find_first_not_of(plain) == std::string_view::npos) {
        return std::string(word);
    }
    std::string quoted = "'";
    for (const char letter : word) {
        quoted += letter == '\'' ? "'\\''" : std::string(1, letter);
    }
    return quoted + "'";
}

std::string
job_line(const Variant& variant, const saved_state::RunMarkParts& options, const JobWords& words) {
    std::string line = shell_word(words.program) + " run " + path_word(variant.case_path)
        + " --out " + path_word(variant.run_folder) + " --threads 1";
    line += words.resumes ? " --resume" : "";
    line += options.with_pictures ? "" : " --no-pictures";
    line += options.with_even_drive ? "" : " --no-even-drive";
    line += options.with_remedies ? "" : " --no-remedies";
    return words.sheets.empty() ? line : line + " --sheets " + path_word(words.sheets);
}

} // namespace flangewright::compare
