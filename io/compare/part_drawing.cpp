#include "io/compare/part_drawing.hpp"

#include "io/sheet_page/html.hpp"
#include "io/vtk/colour_map.hpp"
#include "io/vtk/colour_scale.hpp"

#include <Eigen/Geometry>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace flangewright::compare {

namespace {

using Eigen::Vector3d;

/// Onto the paper: right, down, and toward the eye; in mm.
struct Paper {
    Vector3d toward_eye = Vector3d(0.42, 0.78, 0.62).normalized(); // as the runs' own pictures
    Vector3d right = Vector3d::UnitZ().cross(toward_eye).normalized();
    Vector3d up = toward_eye.cross(right);

    [[nodiscard]] Eigen::Matrix3Xd places(const Eigen::Matrix3Xd& positions) const {
        Eigen::Matrix3Xd places(3, positions.cols());
        places.row(0) = right.transpose() * positions;
        places.row(1) = -up.transpose() * positions;
        places.row(2) = toward_eye.transpose() * positions;
        return places;
    }
};

std::string hex_colour(double share, double light) {
    const vtk::Colour colour = vtk::colour_at(share);
    const auto part = [light](double value) {
        return static_cast<int>(std::lround(255 * std::clamp(value * light, 0.0, 1.0)));
    };
    return fmt::format("#{:02x}{:02x}{:02x}", part(colour[0]), part(colour[1]), part(colour[2]));
}

/// A little shade on what is turned away, so that the bend is seen.
double light_on(const Eigen::Matrix3Xd& places, const std::array<int, 4>& quad) {
    const Vector3d one = places.col(quad[2]) - places.col(quad[0]);
    const Vector3d other = places.col(quad[3]) - places.col(quad[1]);
    const Vector3d normal = one.cross(other).normalized();
    return 0.86 + 0.14 * std::abs(normal.z());
}

/// Elements from far to near: what is nearer covers what is behind it.
std::vector<std::size_t>
from_far(const Eigen::Matrix3Xd& places, const std::vector<std::array<int, 4>>& quads) {
    std::vector<std::size_t> order(quads.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) {
        double depth = 0;
        for (const int node : quads[i]) {
            depth += places(2, node);
        }
        return depth;
    });
    return order;
}

std::string
element(const Eigen::Matrix3Xd& places, const std::array<int, 4>& quad, const std::string& colour) {
    std::string path = "M";
    for (const int node : quad) {
        path += fmt::format("{:.2f} {:.2f} ", places(0, node), places(1, node));
    }
    // The stroke closes the hair between neighbours.
    return fmt::format("<path d=\"{0}z\" fill=\"{1}\" stroke=\"{1}\"/>\n", path, colour);
}

/// Width and height on paper, largest over all parts; the same for each drawing.
Eigen::Vector2d common_size(const std::vector<Eigen::Matrix3Xd>& all) {
    Eigen::Vector2d size(1, 1);
    for (const Eigen::Matrix3Xd& places : all) {
        const Eigen::Vector3d span = places.rowwise().maxCoeff() - places.rowwise().minCoeff();
        size = size.cwiseMax(span.head<2>());
    }
    return 1.06 * size;
}

std::string drawing(
    const DrawnPart& part, const Eigen::Matrix3Xd& places, const Eigen::Vector2d& size, double top
) {
    const Eigen::Vector3d middle =
        0.5 * (places.rowwise().maxCoeff() + places.rowwise().minCoeff());
    std::string svg = fmt::format(
        "<div class=\"part\"><svg viewBox=\"{:.2f} {:.2f} {:.2f} {:.2f}\" role=\"img\" "
        "aria-label=\"{}\"><g stroke-width=\"{:.3f}\">\n",
        middle.x() - 0.5 * size.x(),
        middle.y() - 0.5 * size.y(),
        size.x(),
        size.y(),
        sheet_page::safe(part.caption),
        0.003 * size.x()
    );
    for (const std::size_t i : from_far(places, part.shape.quads)) {
        const std::array<int, 4>& quad = part.shape.quads[i];
        double mean = 0;
        for (const int node : quad) {
            mean += 0.25 * part.shape.figure[node];
        }
        svg += element(places, quad, hex_colour(mean / top, light_on(places, quad)));
    }
    return svg + "</g></svg><p>" + sheet_page::safe(part.caption) + "</p></div>\n";
}

std::string colour_bar(const std::string& title, double top) {
    constexpr int n_fields = 40;
    std::string svg = "<svg class=\"scale\" viewBox=\"0 0 400 46\" role=\"img\">\n";
    for (int i = 0; i < n_fields; ++i) {
        svg += fmt::format(
            "<rect x=\"{}\" y=\"0\" width=\"10.2\" height=\"14\" fill=\"{}\"/>\n",
            10 * i,
            hex_colour((i + 0.5) / n_fields, 1)
        );
    }
    const int n_steps = vtk::n_scale_steps(top);
    for (int i = 0; i <= n_steps; ++i) {
        svg += fmt::format(
            "<text x=\"{:.1f}\" y=\"28\" text-anchor=\"{}\">{:g}</text>\n",
            400.0 * i / n_steps,
            i == 0 ? "start" : (i == n_steps ? "end" : "middle"),
            top * i / n_steps
        );
    }
    return svg
        + fmt::format(
               "<text x=\"200\" y=\"43\" text-anchor=\"middle\">{}</text></svg>\n",
               sheet_page::safe(title)
        );
}

} // namespace

std::string part_drawings(const PartDrawings& drawings) {
    if (drawings.parts.empty()) {
        return {};
    }
    const Paper paper;
    std::vector<Eigen::Matrix3Xd> all;
    double most = 0;
    for (const DrawnPart& part : drawings.parts) {
        all.push_back(paper.places(part.shape.positions));
        most = std::max(most, part.shape.figure.maxCoeff());
    }
    const Eigen::Vector2d size = common_size(all);
    const double top = vtk::round_up(most);
    std::string content;
    for (std::size_t i = 0; i < all.size(); ++i) {
        content += drawing(drawings.parts[i], all[i], size, top);
    }
    return colour_bar(drawings.scale_title, top) + "<div class=\"parts\">\n" + content + "</div>\n";
}

} // namespace flangewright::compare
