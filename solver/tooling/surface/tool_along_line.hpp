// A tool that does not stand alike along the bend line: its shape at a stroke that hangs on the
// station.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

#include <memory>
#include <utility>

namespace flangewright::tooling {

/// Whoever derives from it says the stroke.
class ToolAlongLine : public RigidSurface {
public:
    /// Units: the shape's own. Source: the tool's own. Fails: never.
    [[nodiscard]] virtual AlongLine stroke_at(double station) const = 0;

    /// At the first station; what follows the line asks at_station().
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const final {
        return at_station(point, first_station_).surface;
    }
    [[nodiscard]] Placement placement() const final { return placement_at(first_station_); }
    [[nodiscard]] ChangingReading
    at_station(const SectionPoint& point, double station) const final {
        const AlongLine stroke = stroke_at(station);
        return along_line(shape_->at_stroke(point, stroke.value), stroke);
    }
    [[nodiscard]] Placement placement_at(double station) const final {
        return shape_->placement_at_stroke(stroke_at(station).value);
    }

protected:
    ToolAlongLine(std::shared_ptr<const DrivenSurface> shape, double first_station)
        : shape_(std::move(shape)), first_station_(first_station) {}

private:
    std::shared_ptr<const DrivenSurface> shape_;
    double first_station_;
};

} // namespace flangewright::tooling
