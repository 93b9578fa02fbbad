#include "io/coupon/gauge_marks.hpp"

namespace flangewright::coupon {

namespace {

/// Which step a place of the line belongs to.
std::optional<std::size_t>
step_at(double station, const outline::BendLine& line, const TestFlange& flange) {
    if (station < flange.run_out || station > line.length() - flange.run_out) {
        return std::nullopt;
    }
    double end = 0;
    const std::vector<outline::Piece> pieces = line.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        end += pieces[i].length;
        if (station <= end) {
            return i;
        }
    }
    return pieces.size() - 1;
}

} // namespace

std::vector<GaugeMark> gauge_marks(const outline::BendLine& line, const TestFlange& flange) {
    std::vector<GaugeMark> marks;
    double edge_begin = 0; // length along the edge and the line where a piece begins
    double begin = 0;
    for (const outline::Piece& piece : line.pieces()) {
        const double ratio = 1 - piece.curvature * flange.flat_width;
        const double edge_end = edge_begin + ratio * piece.length;
        for (;;) {
            const auto number = static_cast<int>(marks.size());
            const double along = number * mark_distance;
            if (along > edge_end) {
                break;
            }
            const double station = begin + (along - edge_begin) / ratio;
            marks.push_back({number, station, step_at(station, line, flange)});
        }
        edge_begin = edge_end;
        begin += piece.length;
    }
    return marks;
}

std::vector<std::pair<int, int>> mark_pairs(const std::vector<GaugeMark>& marks) {
    std::vector<std::pair<int, int>> pairs;
    const auto is_pair = [&marks](std::size_t from, std::size_t to) {
        return to < marks.size() && marks[from].step && marks[from].step == marks[to].step;
    };
    for (std::size_t i = 0; i + 1 < marks.size();) {
        const std::size_t gaps = is_pair(i, i + 2) ? 2 : 1;
        if (is_pair(i, i + gaps)) {
            pairs.emplace_back(marks[i].number, marks[i + gaps].number);
        }
        i += gaps;
    }
    return pairs;
}

} // namespace flangewright::coupon
