// A drawing as text DXF; its .cpp is the only file that includes the library for writing it.
#pragma once

#include "io/paper/sheet.hpp"
#include "io/units/length.hpp"

#include <string>

namespace flangewright::paper {

/// In the shop's own unit, which the header names ($INSUNITS); a layer for each kind that is drawn;
/// outlines are polylines with arcs. Units: mm in, `unit` out. Source: DXF of the year 2000
/// (AC1015), from memory; the library writes the frame. Fails: never.
[[nodiscard]] std::string dxf_of(const Sheet& sheet, units::LengthUnit unit);

} // namespace flangewright::paper
