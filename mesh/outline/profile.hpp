// A quantity given at some stations of the bend line, for what does not stay alike along it.
#pragma once

#include <cstddef>
#include <vector>

namespace flangewright::outline {

/// The quantity at one station; its unit is the owner's.
struct ProfilePoint {
    double station = 0;
    double value = 0;
};

/// A quantity and its first and second derivative along the line.
struct ProfileReading {
    double value = 0;
    double slope = 0; ///< per mm
    double bend = 0; ///< per mm^2
};

/// Straight between its points, level before the first and past the last. Without points it says
/// nothing: the quantity is one value all along, kept elsewhere.
class Profile {
public:
    Profile() = default;
    /// Stations rise. Units: mm. Source: none needed.
    explicit Profile(std::vector<ProfilePoint> points);

    [[nodiscard]] bool is_empty() const { return points_.empty(); }
    [[nodiscard]] const std::vector<ProfilePoint>& points() const { return points_; }
    /// Units: mm. Source: none needed. Fails: a profile without points is a caller's bug; so below.
    [[nodiscard]] double at(double station) const;
    /// The same with each corner rounded by a parabola over 2 mm to either side, less where points
    /// lie nearer than 8 mm: a quarter of the way to the next. A corner where the slope changes by
    /// s is missed by s / 2 mm at most. Units: mm. Source: derived here (docs/theory.md, "A wall
    /// whose angle varies"). Fails: as at().
    [[nodiscard]] ProfileReading rounded_at(double station) const;
    [[nodiscard]] double least() const;
    [[nodiscard]] double most() const;
    /// Largest slope either way, without sign. Units: per mm. Source: none needed. Fails: as at().
    [[nodiscard]] double steepest() const;
    /// All values raised by an amount. Units: the owner's. Source: none needed. Fails: never.
    [[nodiscard]] Profile raised_by(double amount) const;

private:
    [[nodiscard]] double slope_after(std::size_t n_passed) const;
    [[nodiscard]] double rounding_at(std::size_t i) const;

    std::vector<ProfilePoint> points_;
};

} // namespace flangewright::outline
