// A short mark by which a finished run is known to be of the same job.
#pragma once

#include "solver/job/job.hpp"

#include <string>
#include <string_view>

namespace flangewright::saved_state {

/// What a run's results hang on besides the job.
struct RunMarkParts {
    std::string_view case_file_text; ///< as it lies on the disk
    std::string program_version = {};
    bool with_pictures = true;
    bool with_even_drive = true;
    bool with_remedies = true;
};

/// 16 letters; equal for equal case text, numbers of the job, own sheets' files, version and
/// options. Number of threads and place do not count. Units: none. Source: FNV-1a, 64 bits (from
/// memory): finds what differs by accident, keeps nobody out. Fails: never.
[[nodiscard]] std::string run_mark(const job::Job& job, const RunMarkParts& parts);

} // namespace flangewright::saved_state
