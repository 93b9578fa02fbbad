// A case with everything a template shows.
#pragma once

#include "io/blank_template/template_request.hpp"

namespace flangewright::blank_template {

/// A concave flange with a free start, the other end going on. Lengths in mm. Source: made up.
inline TemplateRequest full_request() {
    TemplateRequest request;
    job::Job& job = request.job;
    job.title = "Made-up part";
    job.sheet.material.name = "2024-O";
    job.sheet.thickness = 0.8;
    job.sheet.rolling_direction = 0;
    job.blank.line = outline::BendLine::arc(200, 0.4, outline::Curve::concave);
    job.blank.web_width = 40;
    job.blank.flange_depth = 18;
    job.blank.trim_allowance = 3;
    job.blank.end = job::EndKind::continues;
    job.blank.openings.holes = {{20, -30, 5, true}, {40, 9, 3.2, false}};
    job.block.nose_radius = 2.4;
    job.block.backing_setback = 1.5;
    request.net = outline::Profile({{0, 18}, {80, 19}});
    request.shows_grain = true;
    return request;
}

} // namespace flangewright::blank_template
