// What the two bends of a job ask alike of their tools.
#pragma once

#include "io/key_file/table_reader.hpp"

namespace flangewright::case_file {

/// A block's nose; how sharp it may be for the sheet is checked with the sheet.
[[nodiscard]] inline key_file::ValueRule nose_radius_rule() {
    return {
        .key = "nose_radius",
        .measure = key_file::Measure::length,
        .lowest = 0.05,
        .highest = 200,
        .reason = "a sharp nose cuts the sheet",
        .remedy = "write the radius on the block's edge, at least a quarter of the thickness"};
}

/// The gap between a drive and its block.
[[nodiscard]] inline key_file::ValueRule clearance_rule() {
    return {
        .key = "clearance",
        .lowest = 1.0,
        .highest = 5.0,
        .reason = "gap between drive and block over sheet thickness; less than 1 squeezes the "
                  "sheet",
        .remedy = "divide the gap by the sheet thickness",
        .need = key_file::Need::optional};
}

/// A wiper's corner.
[[nodiscard]] inline key_file::ValueRule corner_radius_rule() {
    return {
        .key = "corner_radius",
        .measure = key_file::Measure::length,
        .lowest = 0.2,
        .highest = 200,
        .reason = "a sharp corner scores the sheet",
        .remedy = "write the radius of the wiper's corner, 3 mm is usual",
        .need = key_file::Need::optional};
}

} // namespace flangewright::case_file
