// A sheet's file with one edge limit put in its place and everything else left as it stands.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"
#include "solver/material/sheet_material.hpp"

#include <string>

namespace flangewright::coupon {

/// A measured limit of one finish.
struct MeasuredLimit {
    material::EdgeFinish finish = material::EdgeFinish::snipped;
    double stretch = 0; ///< engineering strain, -
    std::string source; ///< "coupon, lot 7, 2026-11-26"
};

/// The text of a sheet's file with this limit, graded `coupon`; comments and all other values stay.
/// Units: per cent in the file. Source: docs/case-file.md, [sheet.material.edge_limit]. Fails: when
/// the text is no sheet, or has its edge limits in another form than lines below [edge_limit].
[[nodiscard]] Result<std::string, key_file::InputProblem>
sheet_with_limit(const std::string& text, const std::string& file, const MeasuredLimit& limit);

} // namespace flangewright::coupon
