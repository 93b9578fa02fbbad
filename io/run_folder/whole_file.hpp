// Files that are whole or not there: written beside their place, then renamed into it.
#pragma once

#include "mesh/base/result.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace flangewright::run_folder {

/// Writes `bytes` to a temporary name in the same folder, flushes it to the disk and renames it.
/// On failure the temporary file is gone and an older file of that name is untouched.
/// Units: none. Source: rename(2), fsync(2). Fails: with what refused, in plain words.
[[nodiscard]] Result<std::filesystem::path>
write_whole(const std::filesystem::path& path, std::string_view bytes);

/// Makes the folder with its parents where missing and proves by a trial file that it can be
/// written to; the trial file is gone afterwards. Called before the long work.
/// Units: none. Source: none needed. Fails: with what refused, in plain words.
[[nodiscard]] Result<std::filesystem::path> prepare_directory(const std::filesystem::path& path);

/// Removes what killed runs left half-written in the folder and the folders in it. Units: none.
/// Source: none needed. Fails: never; files of a living process stay.
void drop_trial_files(const std::filesystem::path& folder);

} // namespace flangewright::run_folder
