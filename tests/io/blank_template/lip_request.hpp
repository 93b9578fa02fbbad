// A part with a return lip.
#pragma once

#include "solver/findings/lip_development.hpp"
#include "tests/io/blank_template/template_parts.hpp"

namespace flangewright::blank_template {

/// full_request() with a square lip of 8 mm over a nose of 2 mm. Lengths in mm. Source: made up.
inline TemplateRequest lip_request(job::LipSide side) {
    TemplateRequest request = full_request();
    job::Job& job = request.job;
    job.return_bend = job::ReturnBend{.side = side, .lip_depth = 8, .nose_radius = 2};
    const findings::LipDevelopment lip = findings::develop_lip(job);
    job.blank.lip_width = lip.width;
    job.blank.flange_width = lip.bend_begin + lip.width + job.blank.trim_allowance;
    job.blank.openings.holes = {{20, -30, 5, true}};
    request.net = outline::Profile({{0, lip.bend_begin + lip.width}});
    return request;
}

} // namespace flangewright::blank_template
