// Which pictures a run gets, and what each one says.
#pragma once

#include "io/display/child.hpp"
#include "io/sheet_page/sheet_page.hpp"
#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace flangewright::run_folder {

/// One picture: its file, a caption for the page, and the work that gives its bytes.
struct PlannedPicture {
    std::string file; ///< e.g. "thinning.png"
    std::string caption; ///< one line for the page
    std::function<std::string()> draw;
};

/// The pictures this result has data for. The plan looks at `job` and `result` when drawn.
/// Units: mm. Source: docs/outputs.md. Fails: never; drawing aborts without an X display.
[[nodiscard]] std::vector<PlannedPicture>
plan_pictures(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result);

/// True for the names this program gives to pictures. Units: none. Source: docs/outputs.md.
/// Fails: never.
[[nodiscard]] bool is_picture_name(const std::string& name);

/// Those a run left in its folder, named by their files, in the order of the page. Units: none.
/// Source: docs/outputs.md. Fails: never; what can't be read is left out.
[[nodiscard]] std::vector<sheet_page::PagePicture> pictures_in(const std::filesystem::path& folder);

} // namespace flangewright::run_folder
