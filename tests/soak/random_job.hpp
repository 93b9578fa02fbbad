// A random but sensible job, written as a user would write it.
#pragma once

#include "solver/job/job.hpp"

#include <cstdint>
#include <string>

namespace flangewright::soak {

/// A case file and what it holds, for tables and for the text.
struct RandomJob {
    std::uint64_t seed = 0;
    std::string sheet; ///< name of the sheet
    job::Job job; ///< steps and accuracy as read; filled from the same numbers as the text
    std::string text; ///< the case file
};

/// The same job for the same seed, on every machine. Kinds take turns: straight, concave, convex.
/// Sheets of the library, 0.4 to 3 mm; nose radius 1 to 10 thicknesses; plan radius 30 to 2000 mm;
/// 30 to 120 deg; both drives; edge strain by the radius ratio up to the sheet's elongation. Short
/// pieces with the quick mesh, so that a job takes a second or two.
/// Units: mm, rad. Source: none needed. Fails: never.
[[nodiscard]] RandomJob random_job(std::uint64_t seed);

} // namespace flangewright::soak
