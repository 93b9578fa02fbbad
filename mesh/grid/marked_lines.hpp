// Lines of nodes drawn anew so that some lie where openings need them.
#pragma once

#include <vector>

namespace flangewright::grid {

/// A stretch between two values.
struct Interval {
    double begin = 0;
    double end = 0;
};

/// A stretch that is divided evenly in number, with lines no further apart than a width.
struct PairedStretch {
    Interval interval;
    double widest = 0; ///< mm
};

/// Growing values that go from one to the next as widely as the given ones do there.
class LineSpacing {
public:
    /// At least two growing values.
    explicit LineSpacing(std::vector<double> values);

    /// How many lines lie before a place, with parts of one. Units: none. Source: none needed.
    /// Fails: never; level before the first and past the last.
    [[nodiscard]] double count_at(double place) const;
    /// The inverse. Units: mm. Source: none needed. Fails: never, as above.
    [[nodiscard]] double place_at(double count) const;
    /// Distance of neighbouring lines round a place. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double spacing_at(double place) const;
    [[nodiscard]] const std::vector<double>& values() const { return values_; }

private:
    std::vector<double> values_;
};

/// A line at each mark (growing, the first and last value among them), and between them lines about
/// as far apart as before; within an interval of `paired` the marks lie an even number of lines
/// apart. Units: mm. Source: derived here (docs/theory.md, "Openings"). Fails: never.
[[nodiscard]] std::vector<double> lines_through(
    const LineSpacing& spacing,
    const std::vector<double>& marks,
    const std::vector<PairedStretch>& paired
);

} // namespace flangewright::grid
