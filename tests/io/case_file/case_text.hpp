// A good case, and the same with one line changed.
#pragma once

#include <sstream>
#include <string>

namespace flangewright::case_file {

inline const std::string good_case = R"(title = "Bracket"
unit = "mm"
[sheet]
material = "2024-O"
thickness = 0.8
rolling_direction = 30
[bend_line]
curve = "concave"
radius = 200
sweep = 20
[blank]
web_width = 40
flange_depth = 18
trim_allowance = 3
start = "free"
end = "continues"
[block]
nose_radius = 2.4
wall_angle = 90
backing_setback = 1
friction = 0
[drive]
kind = "wiper"
corner_radius = 3
clearance = 1.05
angle = 90
[run]
steps = ["bend-down", "release"]
accuracy = "normal"
close_from = 0.8
)";

/// The good case with one line, counted from 1, replaced by another text (of any number of lines).
inline std::string
with_line(int line, const std::string& text, const std::string& base = good_case) {
    std::istringstream in(base);
    std::string result;
    std::string each;
    for (int i = 1; std::getline(in, each); ++i) {
        result += (i == line ? text : each) + "\n";
    }
    return result;
}

} // namespace flangewright::case_file
