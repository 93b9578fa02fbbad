#include "solver/tooling/surface/following_tool.hpp"

namespace flangewright::tooling {

AlongLine FollowingTool::stroke_at(double station) const {
    const outline::ProfileReading whole = strokes_.rounded_at(station);
    return {share_ * whole.value, share_ * whole.slope, share_ * whole.bend};
}

SurfaceReading FollowingTool::at(const SectionPoint& point) const {
    return at_station(point, first_station()).surface;
}

Placement FollowingTool::placement() const {
    return placement_at(first_station());
}

ChangingReading FollowingTool::at_station(const SectionPoint& point, double station) const {
    const AlongLine stroke = stroke_at(station);
    return along_line(shape_->at_stroke(point, stroke.value), stroke);
}

Placement FollowingTool::placement_at(double station) const {
    return shape_->placement_at_stroke(stroke_at(station).value);
}

} // namespace flangewright::tooling
