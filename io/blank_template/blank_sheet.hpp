// The template of the flat blank.
#pragma once

#include "io/blank_template/template_request.hpp"
#include "io/paper/sheet.hpp"

namespace flangewright::blank_template {

/// Cut and net outline, bend line and the other bend tangent, stations with their numbers, holes,
/// notches, tabs, grain arrow, head with sheet, notes and cautions; in the bend line's own
/// coordinates. Units: mm. Source: docs/templates.md. Fails: never.
[[nodiscard]] paper::Sheet blank_sheet(const TemplateRequest& request);

/// Flat distance of the flange's bend tangent from the bend line over the station; one point: alike
/// all along. Units: mm. Source: findings::bend_allowance(). Fails: never.
[[nodiscard]] outline::Profile flange_tangents(const job::Job& job);

} // namespace flangewright::blank_template
