// One file of the sheet library, built in or a user's own.
#pragma once

#include "io/key_file/document.hpp"
#include "io/sheet_library/sheet_library.hpp"

namespace flangewright::sheet_library {

/// What a file gave.
struct SheetFile {
    std::optional<KnownSheet> sheet; ///< empty when something is wrong
    std::string name; ///< of the sheet, also when the rest is wrong; empty when that can't be read
    std::vector<key_file::InputProblem> problems; ///< from the top of the file down
};

/// Reads a sheet from a document. Units: MPa, strains as plain numbers. Source: the file's own
/// texts. Fails: with problems and no sheet.
[[nodiscard]] SheetFile sheet_from(const Result<key_file::Document, key_file::InputProblem>& file);

} // namespace flangewright::sheet_library
