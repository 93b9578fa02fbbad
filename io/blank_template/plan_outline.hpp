// A closed outline between two lines beside the bend line, open where the part goes on.
#pragma once

#include "io/blank_template/plan_path.hpp"
#include "solver/job/job.hpp"

namespace flangewright::blank_template {

/// From `near` (web side) and `far` (flange side), both from start to end: closed when both ends
/// are cut, open at an end that continues. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] std::vector<paper::Path>
outline_between(paper::Pen pen, const job::Blank& blank, const Vertices& near, const Vertices& far);

/// The line on which the part goes on, with words, at each end that continues. Units: mm. Source:
/// none needed. Fails: never.
void add_middles(paper::Sheet& sheet, const job::Blank& blank, double near, double far);

/// Lines of words above all that is drawn, the first one large. Units: mm. Source: none needed.
/// Fails: never.
void add_head(paper::Sheet& sheet, const std::vector<std::string>& lines);

/// Holes with their centres. Units: mm. Source: none needed. Fails: never.
void add_holes(
    paper::Sheet& sheet, const outline::BendLine& line, const std::vector<outline::Hole>& holes
);

} // namespace flangewright::blank_template
