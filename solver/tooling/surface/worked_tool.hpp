// A tool worked along the bend line: in each pass a front travels along it, behind which the tool
// has made this pass's stroke and ahead of which it stands where the last pass left it.
#pragma once

#include "solver/tooling/surface/tool_along_line.hpp"

#include <memory>
#include <vector>

namespace flangewright::tooling {

/// Where the front of each pass begins. From both ends two fronts meet in the middle.
enum class FrontFrom { start, end, both_ends };

/// The stretch that is worked. mm.
struct WorkedStretch {
    double begin = 0; ///< station
    double end = 0; ///< station
    double front = 1; ///< length over which the stroke goes from not yet done to done
    FrontFrom from = FrontFrom::start;
};

/// How much of a pass is done at a station, 0 to 1, once a share of the pass has been worked. The
/// ramp over the front has a steady slope. Units: mm. Source: derived here (docs/theory.md,
/// "Driving in passes"). Fails: never.
[[nodiscard]] AlongLine done_at(const WorkedStretch& stretch, double station, double share);

/// The stroke of the last pass ahead of the front, of this one behind it.
class WorkedTool final : public ToolAlongLine {
public:
    /// `strokes`: before the first pass and after each, in the shape's own unit; at least one pass.
    /// Source: as done_at().
    WorkedTool(
        std::shared_ptr<const DrivenSurface> shape,
        WorkedStretch stretch,
        std::vector<double> strokes
    );

    /// All passes take the same share, one after the other.
    void move_to(double share);
    /// Units: the shape's own. Source: as done_at(). Fails: never.
    [[nodiscard]] AlongLine stroke_at(double station) const override;

private:
    WorkedStretch stretch_;
    std::vector<double> strokes_;
    std::size_t pass_ = 0;
    double share_of_pass_ = 0;
};

} // namespace flangewright::tooling
