// Drawings at real size on the pages of a PDF; its .cpp is the only file that includes the library.
#pragma once

#include "io/paper/sheet.hpp"
#include "io/paper/tiling.hpp"
#include "mesh/base/result.hpp"

#include <string>
#include <vector>

namespace flangewright::paper {

/// What stands on every page.
struct PageWords {
    std::string title;
    std::string caution; ///< one line
};

/// Each drawing on as many pages as it needs, lines as lines. Every page has the title, the
/// drawing's name, its place ("row 1 of 2, column 2 of 3"), the number of the page, bars of 100 mm
/// and 4 in, and the caution; where pages overlap, numbered crosses to lay upon each other. Units:
/// mm. Source: PDF through the cairo library. Fails: when the library refuses.
[[nodiscard]] Result<std::string>
pdf_of(const std::vector<Sheet>& sheets, const PageSize& page, const PageWords& words);

} // namespace flangewright::paper
