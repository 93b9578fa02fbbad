// A tool that follows a wall whose angle varies: at each station it has made the same share of the
// stroke it makes there.
#pragma once

#include "mesh/outline/profile.hpp"
#include "solver/tooling/surface/tool_along_line.hpp"

#include <memory>
#include <utility>

namespace flangewright::tooling {

/// The whole stroke of each station, as far as the share of it goes.
class FollowingTool final : public ToolAlongLine {
public:
    /// `strokes`: the whole one over the station, in the shape's own unit, corners rounded. Source:
    /// docs/theory.md, "A wall whose angle varies".
    FollowingTool(std::shared_ptr<const DrivenSurface> shape, outline::Profile strokes)
        : ToolAlongLine(std::move(shape), strokes.points().front().station),
          strokes_(std::move(strokes)) {}

    void move_to(double share) { share_ = share; }
    /// Units: the shape's own. Source: none needed. Fails: never.
    [[nodiscard]] AlongLine stroke_at(double station) const override;

private:
    outline::Profile strokes_;
    double share_ = 0;
};

} // namespace flangewright::tooling
