// Templates of the tools: form block and backing block seen from above, and the section across
// them.
#pragma once

#include "io/blank_template/template_request.hpp"
#include "io/paper/sheet.hpp"

namespace flangewright::blank_template {

/// The form block's outline where the nose ends in the wall, with the bend line and the pins.
/// Units: mm. Source: plane geometry. Fails: never.
[[nodiscard]] paper::Sheet form_block_sheet(const TemplateRequest& request);

/// The backing's outline, with the bend line and the pins. Units: mm. Source: plane geometry.
/// Fails: never.
[[nodiscard]] paper::Sheet backing_sheet(const TemplateRequest& request);

/// Nose, wall with its undercut, backing and the sheet as it is wanted on the block, cut across; a
/// section for each point of a wall angle that varies, six at most. Units: mm. Source: plane
/// geometry; docs/templates.md. Fails: never.
[[nodiscard]] paper::Sheet
section_sheet(const TemplateRequest& request, const outline::Profile& wanted);

} // namespace flangewright::blank_template
