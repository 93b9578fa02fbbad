// A made-up record of a drive in passes, for tests of the outputs: no mechanics in it.
#pragma once

#include "solver/process/job_result.hpp"

namespace flangewright::support {

/// Two passes, three nodes of the edge at 0, 40 and 80 mm; strains are logarithmic. Invented.
inline process::DriveRecord made_up_record(double strain) {
    process::DriveRecord record;
    record.passes = {{0.7, 0.72, 0.4 * strain, 40}, {1.5707963267948966, 1.55, strain, 40}};
    record.stations = Eigen::Vector3d(0, 40, 80);
    record.stretched = Eigen::Vector3d(0.2 * strain, 1.1 * strain, 0.1 * strain);
    record.shrunk = Eigen::Vector3d(-0.01, 0, -0.02);
    return record;
}

/// Beside the even drive.
inline process::PassResult made_up_passes() {
    return {made_up_record(0.1), made_up_record(0.05), 12.5};
}

} // namespace flangewright::support
