// The shapes and figures of a part as the text that the page's own script reads.
#pragma once

#include "io/part_view/view_state.hpp"
#include "io/units/length.hpp"

#include <string>

namespace flangewright::part_view {

/// JSON without a "<" in it: colours, fields with title, unit and scale, the field to show first,
/// meshes (quads, cut edges, stations), states with points and figures. Whole blocks of bytes stand
/// in base64; their form is that of packed.hpp. Units: as the fields' own say; lengths in `unit`.
/// Source: JSON (RFC 8259). Fails: never; empty without a single shape.
[[nodiscard]] std::string view_data(
    const process::JobResult& result, const std::vector<ViewState>& states, units::LengthUnit unit
);

} // namespace flangewright::part_view
