// Gets a user's text file into memory, or says in one line why not.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace flangewright::key_file {

/// What a file should be, for the words of a problem.
struct TextKind {
    std::string what = "case file";
    std::size_t largest = 1'000'000; ///< bytes
};

/// Fails: when there is no such file, it is a folder, may not be read or is too large.
[[nodiscard]] Result<std::string, InputProblem>
read_text_file(const std::filesystem::path& path, const TextKind& kind = {});

/// The first place that is not UTF-8, if any.
[[nodiscard]] std::optional<InputProblem>
encoding_problem(std::string_view text, const std::string& file);

} // namespace flangewright::key_file
