// A user's own sheets: files in a folder, each in the place of a built-in sheet or beside them.
#pragma once

#include "io/sheet_library/sheet_library.hpp"

#include <filesystem>

namespace flangewright::sheet_library {

/// "$XDG_CONFIG_HOME/flangewright/sheets", else "~/.config/flangewright/sheets"; nothing without a
/// home. Units: none. Source: XDG Base Directory Specification, from memory: the variable counts
/// only when it is an absolute path. Fails: never; the folder need not exist.
[[nodiscard]] std::optional<std::filesystem::path> users_own_folder();

/// The built-in sheets and those of all *.toml files of the folder. A user's file takes the place
/// of the built-in sheet of the same file name or sheet name. A file with something wrong is left
/// out and told in `problems`, one for each file; the built-in sheet it was meant to replace is
/// left out, too, so that nobody computes with values he has replaced. Units, source: as
/// known_sheets. Fails: never; a folder that is not there gives the built-in sheets.
[[nodiscard]] Library library_with(const std::filesystem::path& folder);

} // namespace flangewright::sheet_library
