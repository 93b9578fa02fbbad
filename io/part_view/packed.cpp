#include "io/part_view/packed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::part_view {

namespace {

void append(std::string& bytes, unsigned int value, int n_bytes) {
    for (int i = 0; i < n_bytes; ++i) {
        bytes += static_cast<char>(value >> 8 * i & 0xFFU);
    }
}

unsigned int step_of(double value, double low, double span, double n_steps) {
    const double share = (value - low) / span;
    return std::isfinite(share)
        ? static_cast<unsigned int>(std::lround(n_steps * std::clamp(share, 0.0, 1.0)))
        : 0U;
}

} // namespace

Cube cube_round(const std::vector<const Eigen::Matrix3Xd*>& shapes) {
    Eigen::Vector3d low = Eigen::Vector3d::Constant(std::numeric_limits<double>::max());
    Eigen::Vector3d high = -low;
    for (const Eigen::Matrix3Xd* shape : shapes) {
        for (Eigen::Index i = 0; i < shape->cols(); ++i) {
            if (shape->col(i).allFinite()) {
                low = low.cwiseMin(shape->col(i));
                high = high.cwiseMax(shape->col(i));
            }
        }
    }
    const double span = (high - low).maxCoeff();
    return span > 0 ? Cube{low, span} : Cube{};
}

std::string packed_points(const Eigen::Matrix3Xd& points, const Cube& cube) {
    std::string bytes;
    bytes.reserve(static_cast<std::size_t>(6 * points.cols()));
    for (Eigen::Index i = 0; i < points.cols(); ++i) {
        for (int axis = 0; axis < 3; ++axis) {
            append(bytes, step_of(points(axis, i), cube.low(axis), cube.span, 65535), 2);
        }
    }
    return bytes;
}

std::string
packed_figures(const Eigen::Ref<const Eigen::VectorXd>& figures, double low, double top) {
    std::string bytes;
    bytes.reserve(static_cast<std::size_t>(figures.size()));
    for (const double figure : figures) {
        append(
            bytes, std::isfinite(figure) ? step_of(figure, low, top - low, 254) : no_figure_byte, 1
        );
    }
    return bytes;
}

std::string packed_numbers(const std::vector<int>& numbers, bool is_wide) {
    std::string bytes;
    bytes.reserve(numbers.size() * (is_wide ? 4 : 2));
    for (const int number : numbers) {
        append(bytes, static_cast<unsigned int>(number), is_wide ? 4 : 2);
    }
    return bytes;
}

} // namespace flangewright::part_view
