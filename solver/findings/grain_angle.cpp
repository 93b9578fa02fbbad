#include "solver/findings/grain_angle.hpp"

#include <cmath>

namespace flangewright::findings {

double grain_angle(const job::Job& job, double station) {
    const outline::LineFrame middle = job.blank.line.frame(job.blank.middle_of_part());
    const outline::LineFrame there = job.blank.line.frame(station);
    const double turned =
        std::atan2(middle.tangent.dot(there.outward), middle.tangent.dot(there.tangent));
    return job.sheet.rolling_direction + turned;
}

} // namespace flangewright::findings
