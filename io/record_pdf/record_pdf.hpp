// The page of record in short, as a PDF file for those who file or send it.
#pragma once

#include "io/case_file/log_entry.hpp"
#include "io/sheet_page/measured_part.hpp"
#include "io/sheet_page/sheet_page.hpp"

#include <string>
#include <vector>

namespace flangewright::record_pdf {

/// What stands in it. Texts as they are shown.
struct Record {
    std::string title;
    std::string made_by; ///< "flangewright 0.1.0, 2026-11-26, from case.toml"
    std::string verdict; ///< "Holds: 61 % of the limit is used"
    std::string because;
    case_file::LogEntry log;
    std::vector<sheet_page::MeasuredRow> rows;
    std::vector<std::string> notes;
    std::vector<sheet_page::PagePicture> pictures;
};

/// The file's bytes. Units: as the texts say. Source: docs/build-log.md. Fails: empty when the
/// library could not make it.
[[nodiscard]] std::string pdf_of(const Record& record);

} // namespace flangewright::record_pdf
