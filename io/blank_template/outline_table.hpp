// The flat outline as numbers.
#pragma once

#include "io/blank_template/template_request.hpp"
#include "solver/process/blank_outline.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::blank_template {

/// Comma-separated: station, net and cut flat width, and, where a part was formed, its wanted and
/// formed depth and the miss; of a flange with a lip the lip's, then in `flange_depths` the
/// flange's to the lip's outside. Units: the request's unit, named in the heads. Source:
/// docs/templates.md. Fails: never.
[[nodiscard]] std::string outline_table(
    const TemplateRequest& request,
    const std::vector<process::DepthAt>& depths,
    const std::vector<process::DepthAt>& flange_depths = {}
);

/// The line `flat_width = ...` for the case's [blank], to compute the part as cut, in the place of
/// the flange depth, with a lip beside it. Empty: more
/// points than a case may have. Units: mm. Source: docs/case-file.md. Fails: never.
[[nodiscard]] std::optional<std::string> flat_width_lines(const TemplateRequest& request);

} // namespace flangewright::blank_template
