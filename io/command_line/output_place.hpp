// The folder a run writes to: found or made, and proved to be writable before the long solve.
#pragma once

#include "mesh/base/result.hpp"

#include <filesystem>

namespace flangewright::command_line {

/// "<folder of the case>/<name>-result"; a file called case.toml takes the name of its folder.
[[nodiscard]] std::filesystem::path default_output_folder(const std::filesystem::path& case_file);

/// Makes the folder if need be and tries a file in it. An earlier result of ours may be replaced;
/// a folder that holds other things is left alone. Fails: when it can't be made or written to, or
/// holds files that are not a result of this program.
[[nodiscard]] Result<std::filesystem::path>
prepare_output_folder(const std::filesystem::path& folder);

} // namespace flangewright::command_line
