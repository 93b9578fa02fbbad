#include "mesh/outline/clearance.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::outline {

namespace {

struct Sample {
    std::size_t piece = 0;
    double station = 0;
    Eigen::Vector2d point = Eigen::Vector2d::Zero();
};

/// Places along the line, the ends of all pieces among them.
std::vector<Sample> samples_of(const BendLine& line) {
    constexpr double largest_turn = 0.05; // rad
    constexpr double most_in_line = 2000;
    const double longest = line.length() / 100;
    const std::vector<Piece> pieces = line.pieces();
    const double most = std::max(4.0, most_in_line / static_cast<double>(pieces.size()));
    std::vector<Sample> samples;
    double begin = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const double turn = pieces[i].length * std::abs(pieces[i].curvature);
        const double wanted = 1 + std::max(pieces[i].length / longest, turn / largest_turn);
        const int n = static_cast<int>(std::min(wanted, most));
        for (int k = 0; k < n; ++k) {
            const double station = begin + pieces[i].length * k / n;
            samples.push_back({i, station, line.frame(station).point.head<2>()});
        }
        begin += pieces[i].length;
    }
    samples.push_back({pieces.size() - 1, begin, line.frame(begin).point.head<2>()});
    return samples;
}

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

/// Whether two points lie on different sides of the line from `begin` along `way`.
bool are_parted(
    const Eigen::Vector2d& begin, const Eigen::Vector2d& way, const Sample& c, const Sample& d
) {
    return (cross(way, c.point - begin) >= 0) != (cross(way, d.point - begin) >= 0);
}

bool do_cross(const Sample& a, const Sample& b, const Sample& c, const Sample& d) {
    // Segments of one straight piece part each other by rounding, but never lie side by side.
    const bool are_near =
        (a.point.cwiseMin(b.point).array() <= c.point.cwiseMax(d.point).array()).all()
        && (c.point.cwiseMin(d.point).array() <= a.point.cwiseMax(b.point).array()).all();
    return are_near && are_parted(a.point, b.point - a.point, c, d)
        && are_parted(c.point, d.point - c.point, a, b);
}

std::size_t piece_at(const BendLine& line, double station) {
    const std::vector<Piece> pieces = line.pieces();
    double end = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        end += pieces[i].length;
        if (station <= end) {
            return i;
        }
    }
    return pieces.size() - 1;
}

} // namespace

std::optional<Meeting> find_self_crossing(const BendLine& line) {
    const std::vector<Sample> samples = samples_of(line);
    for (std::size_t i = 0; i + 1 < samples.size(); ++i) {
        for (std::size_t j = i + 2; j + 1 < samples.size(); ++j) {
            if (do_cross(samples[i], samples[i + 1], samples[j], samples[j + 1])) {
                return Meeting{samples[i].piece, samples[j].piece, 0};
            }
        }
    }
    return std::nullopt;
}

std::optional<Meeting> find_overlap(const BendLine& line, double web_width, double flange_width) {
    constexpr int n_across = 4; // places on each side
    const double off_place = 1e-6 * (1 + line.length());
    for (const Sample& sample : samples_of(line)) {
        for (int k = -n_across; k <= n_across; ++k) {
            const double distance = (k < 0 ? web_width : flange_width) * k / n_across;
            const LinePosition found = line.locate(line.point({sample.station, distance}));
            if (std::abs(found.station - sample.station) > off_place) {
                return Meeting{sample.piece, piece_at(line, found.station), distance};
            }
        }
    }
    return std::nullopt;
}

} // namespace flangewright::outline
