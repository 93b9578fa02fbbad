// The printable page for the build log: sheet.html, one file with everything in it.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::sheet_page {

/// A picture and the words that stand for it where it can't be seen.
struct PagePicture {
    std::string caption;
    std::string png; ///< the file's bytes
};

/// The page's text; it prints on A4 and Letter. `view`: the part to be turned, or nothing. Units:
/// the user's own and mm beside. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string sheet_page(
    const tables::RunFacts& facts,
    const job::Job& job,
    const process::JobResult& result,
    const std::vector<PagePicture>& pictures,
    const std::string& view = {}
);

} // namespace flangewright::sheet_page
