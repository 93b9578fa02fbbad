// What the templates of a part are drawn from.
#pragma once

#include "io/units/length.hpp"
#include "solver/job/job.hpp"

#include <string>
#include <vector>

namespace flangewright::blank_template {

/// The part and its flat widths. Lengths in mm.
struct TemplateRequest {
    job::Job job;
    outline::Profile net; ///< flat width that forms to the drawing; one point: alike all along
    units::LengthUnit unit = units::LengthUnit::millimetre; ///< the shop's own
    bool shows_grain = false; ///< the case states a rolling direction
    std::vector<std::string> notes; ///< sentences for the blank's head: how the width was found
    std::vector<double> lip_angles = {}; ///< of the part formed, after release; none: not formed

    /// Whether an allowance is cut off after forming. Source: none needed. Fails: never.
    [[nodiscard]] bool is_trimmed() const { return job.blank.trim_allowance > 0; }
    /// Flat width as the blank is cut. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] outline::Profile cut() const { return net.raised_by(job.blank.trim_allowance); }
};

} // namespace flangewright::blank_template
