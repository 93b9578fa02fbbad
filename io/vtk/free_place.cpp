#include "io/vtk/free_place.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::vtk {

namespace {

bool is_free(
    const Eigen::Vector2d& middle,
    const LabelRoom& room,
    const std::vector<Eigen::Vector2d>& covered
) {
    const bool is_on_paper = ((middle - room.half_size - room.low).array() >= 0).all()
        && ((room.high - middle - room.half_size).array() >= 0).all();
    return is_on_paper && std::ranges::none_of(covered, [&](const Eigen::Vector2d& at) {
               return ((at - middle).cwiseAbs().array() < room.half_size.array()).all();
           });
}

} // namespace

std::optional<Eigen::Vector2d> free_place(
    const Eigen::Vector2d& dot, const LabelRoom& room, const std::vector<Eigen::Vector2d>& covered
) {
    constexpr int n_directions = 24;
    constexpr double step = 10;
    const double farthest = (room.high - room.low).maxCoeff() / 3;
    for (double distance = 3 * step; distance <= farthest; distance += step) {
        for (int i = 0; i < n_directions; ++i) {
            // Beneath first, then to both sides and upward.
            const int n_turned = (i + 1) / 2 * (i % 2 == 0 ? 1 : -1);
            const double angle = (2.0 * n_turned / n_directions - 0.5) * std::numbers::pi;
            const Eigen::Vector2d middle =
                dot + distance * Eigen::Vector2d(std::cos(angle), std::sin(angle));
            if (is_free(middle, room, covered)) {
                return middle;
            }
        }
    }
    return std::nullopt;
}

} // namespace flangewright::vtk
