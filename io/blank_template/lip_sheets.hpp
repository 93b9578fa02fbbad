// Templates of the block that turns a return lip: seen from above at its place, and cut across.
#pragma once

#include "io/blank_template/template_request.hpp"
#include "io/paper/sheet.hpp"

namespace flangewright::blank_template {

/// Where the lip's nose begins in the block's face and where it ends, beside the bend line. Under
/// the web that is the form block's own lower edge, else a block outside the flange. The job must
/// have a return bend. Units: mm. Source: plane geometry; docs/templates.md. Fails: never.
[[nodiscard]] paper::Sheet lip_block_sheet(const TemplateRequest& request);

/// Both noses, walls and the sheet with its lip cut across at real size, with dimensions. The job
/// must have a return bend. Units: mm. Source: plane geometry; docs/templates.md. Fails: never.
[[nodiscard]] paper::Sheet lip_section_sheet(const TemplateRequest& request);

} // namespace flangewright::blank_template
