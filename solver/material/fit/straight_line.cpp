#include "solver/material/fit/straight_line.hpp"

#include <cmath>
#include <limits>

namespace flangewright::material {

StraightLine line_through(std::span<const double> x, std::span<const double> y) {
    StraightLine line{.slope_error = std::numeric_limits<double>::infinity()};
    const auto n = static_cast<double>(x.size());
    double mean_x = 0;
    double mean_y = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        mean_x += x[i] / n;
        mean_y += y[i] / n;
    }
    double xx = 0;
    double xy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    line.slope = xx > 0 ? xy / xx : 0;
    line.intercept = mean_y - line.slope * mean_x;
    if (x.size() > 2 && xx > 0) {
        double squares = 0;
        for (std::size_t i = 0; i < x.size(); ++i) {
            const double miss = y[i] - line.intercept - line.slope * x[i];
            squares += miss * miss;
        }
        line.slope_error = std::sqrt(squares / (n - 2) / xx);
    }
    return line;
}

double slope_through_origin(std::span<const double> x, std::span<const double> y) {
    double xx = 0;
    double xy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += x[i] * x[i];
        xy += x[i] * y[i];
    }
    return xx > 0 ? xy / xx : 0;
}

} // namespace flangewright::material
