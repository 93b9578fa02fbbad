#include "mesh/grid/marked_lines.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::grid {

LineSpacing::LineSpacing(std::vector<double> values) : values_(std::move(values)) {
    check(values_.size() >= 2, "there are two lines");
}

double LineSpacing::count_at(double place) const {
    const auto above = std::lower_bound(values_.begin() + 1, values_.end() - 1, place);
    const double before = *(above - 1);
    const double share = std::clamp((place - before) / (*above - before), 0.0, 1.0);
    return static_cast<double>(above - 1 - values_.begin()) + share;
}

double LineSpacing::place_at(double count) const {
    const double last = static_cast<double>(values_.size() - 1);
    const double within = std::clamp(count, 0.0, last);
    const auto i = std::min(static_cast<std::size_t>(within), values_.size() - 2);
    return values_[i] + (within - static_cast<double>(i)) * (values_[i + 1] - values_[i]);
}

double LineSpacing::spacing_at(double place) const {
    const double count = count_at(place);
    return place_at(count + 0.5) - place_at(count - 0.5);
}

std::vector<double> lines_through(
    const LineSpacing& spacing,
    const std::vector<double>& marks,
    const std::vector<PairedStretch>& paired
) {
    constexpr double spare = 0.3; // of an element by which lines may lie further apart
    std::vector<double> lines{marks.front()};
    for (std::size_t i = 1; i < marks.size(); ++i) {
        const double begin = marks[i - 1];
        const double end = marks[i];
        const double middle = 0.5 * (begin + end);
        const double first = spacing.count_at(begin);
        const double count = spacing.count_at(end) - first;
        int n = std::max(1, static_cast<int>(std::ceil(count - spare)));
        bool is_paired = false;
        for (const PairedStretch& stretch : paired) {
            if (stretch.interval.begin < middle && middle < stretch.interval.end) {
                is_paired = true;
                n = std::max(
                    n, static_cast<int>(std::ceil((end - begin) / stretch.widest - spare))
                );
            }
        }
        n += is_paired ? n % 2 : 0;
        for (int k = 1; k < n; ++k) {
            lines.push_back(spacing.place_at(first + count * k / n));
        }
        lines.push_back(end);
    }
    return lines;
}

} // namespace flangewright::grid
