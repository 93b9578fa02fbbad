#include "solver/tooling/surface/worked_tool.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <utility>

namespace flangewright::tooling {

namespace {

// 0 to 1 over x from 0 to 1, flat at both ends.
AlongLine ramp(double x) {
    if (x <= 0) {
        return {0, 0, 0};
    }
    if (x >= 1) {
        return {1, 0, 0};
    }
    return {x * x * (3 - 2 * x), 6 * x * (1 - x), 6 - 12 * x};
}

// One front that has come `travel` from its end, at a place `away` from that end.
AlongLine behind_front(double travel, double away, double front) {
    const AlongLine now = ramp((travel - away) / front);
    return {now.value, -now.slope / front, now.bend / (front * front)};
}

// What one of two fronts has done is done.
AlongLine either(const AlongLine& one, const AlongLine& other) {
    const double left = 1 - one.value;
    const double other_left = 1 - other.value;
    return {
        1 - left * other_left,
        one.slope * other_left + other.slope * left,
        one.bend * other_left + other.bend * left - 2 * one.slope * other.slope};
}

} // namespace

AlongLine done_at(const WorkedStretch& stretch, double station, double share) {
    const double length = stretch.end - stretch.begin;
    const bool is_both = stretch.from == FrontFrom::both_ends;
    const double travel = share * ((is_both ? 0.5 * length : length) + stretch.front);
    const AlongLine from_start = behind_front(travel, station - stretch.begin, stretch.front);
    if (stretch.from == FrontFrom::start) {
        return from_start;
    }
    AlongLine from_end = behind_front(travel, stretch.end - station, stretch.front);
    from_end.slope = -from_end.slope; // that front runs against the stations
    return is_both ? either(from_start, from_end) : from_end;
}

WorkedTool::WorkedTool(
    std::shared_ptr<const DrivenSurface> shape, WorkedStretch stretch, std::vector<double> strokes
)
    : ToolAlongLine(std::move(shape), stretch.begin), stretch_(stretch),
      strokes_(std::move(strokes)) {
    check(strokes_.size() >= 2, "a worked tool makes one pass or more");
}

void WorkedTool::move_to(double share) {
    const auto n_passes = static_cast<double>(strokes_.size() - 1);
    const double passes_done = std::clamp(share, 0.0, 1.0) * n_passes;
    pass_ = std::min(static_cast<std::size_t>(passes_done), strokes_.size() - 2);
    share_of_pass_ = passes_done - static_cast<double>(pass_);
}

AlongLine WorkedTool::stroke_at(double station) const {
    const double last = strokes_[pass_];
    const double stroke = strokes_[pass_ + 1] - last;
    const AlongLine done = done_at(stretch_, station, share_of_pass_);
    return {last + stroke * done.value, stroke * done.slope, stroke * done.bend};
}

} // namespace flangewright::tooling
