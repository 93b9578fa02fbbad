#include "solver/tooling/surface/following_tool.hpp"

namespace flangewright::tooling {

AlongLine FollowingTool::stroke_at(double station) const {
    const outline::ProfileReading whole = strokes_.rounded_at(station);
    return {share_ * whole.value, share_ * whole.slope, share_ * whole.bend};
}

} // namespace flangewright::tooling
