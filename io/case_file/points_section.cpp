// A bend line given by points of the drawing.
#include "io/case_file/geometry_check.hpp"
#include "io/case_file/sections.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"
#include "mesh/outline/curve_through.hpp"
#include "mesh/outline/kinked_curve.hpp"
#include "mesh/outline/rounded_kinks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;
using Points = std::vector<Eigen::Vector2d>;

const std::array<std::string, 2> side_words{"left", "right"};

/// A place as the user would find it in the list: numbers without unit, in the file's.
std::string place_text(const Eigen::Vector2d& point, TableReader& table) {
    const units::LengthUnit unit = table.reading().unit;
    const double per_unit = unit == units::LengthUnit::inch ? units::mm_per_inch : 1;
    return fmt::format(
        "({:.4g}, {:.4g}) {}",
        point.x() / per_unit,
        point.y() / per_unit,
        unit == units::LengthUnit::inch ? "in" : "mm"
    );
}

std::optional<Points> written_points(TableReader& table) {
    constexpr std::size_t most_points = 300;
    const auto pairs = table.pairs(
        {.key = "points",
         .measure = Measure::length,
         .lowest = -100'000,
         .highest = 100'000,
         .reason = "a place on the drawing",
         .remedy = "check the unit, or move the drawing's origin nearer to the part"}
    );
    if (!pairs) {
        return std::nullopt;
    }
    if (pairs->size() < 2 || pairs->size() > most_points) {
        table.object_found(
            "points",
            fmt::format("{} points", pairs->size()),
            "2 to 300 points",
            pairs->size() < 2 ? "give the points of the bend line in order"
                              : "leave points out: some ten in each bend of the line are enough"
        );
        return std::nullopt;
    }
    Points points;
    for (const std::array<double, 2>& pair : *pairs) {
        points.emplace_back(pair[0], pair[1]);
    }
    return points;
}

bool have_distances(const Points& points, TableReader& table) {
    constexpr double least = 0.05; // mm; nearer points only carry the rounding of a drawing
    for (std::size_t i = 1; i < points.size(); ++i) {
        if ((points[i] - points[i - 1]).norm() < least) {
            table.object_found(
                "points",
                fmt::format(
                    "points {} and {} in one place, {}", i, i + 1, place_text(points[i], table)
                ),
                "points at least 0.05 mm apart",
                "delete one of them"
            );
            return false;
        }
    }
    return true;
}

bool has_kink(const Points& points, TableReader& table) {
    const std::optional<outline::Kink> kink = outline::find_kink(points);
    if (!kink) {
        return false;
    }
    table.object_found(
        "points",
        fmt::format(
            "a kink of {:.1f} deg at point {}, {}",
            units::degrees(std::abs(kink->turn)),
            kink->point + 1,
            place_text(points[kink->point], table)
        ),
        "a smooth bend line",
        "give more points round the corner if it is rounded, or write round_kinks = its radius; a "
        "flange round a sharp corner needs a relief notch and is two parts"
    );
    return true;
}

/// How the user counts: a line gone the other way has its points in the other order.
class Numbering {
public:
    Numbering(const Points& points, bool is_reversed, TableReader& table)
        : points_(points), is_reversed_(is_reversed), table_(table) {}

    [[nodiscard]] std::string between(std::size_t from) const {
        const std::size_t first = std::min(number(from), number(from + 1));
        return fmt::format(
            "the curve between points {} and {}, near {}",
            first,
            first + 1,
            place_text(0.5 * (points_[from] + points_[from + 1]), table_)
        );
    }
    [[nodiscard]] std::string at(std::size_t point) const {
        return fmt::format("point {}, {}", number(point), place_text(points_[point], table_));
    }

private:
    [[nodiscard]] std::size_t number(std::size_t point) const {
        return is_reversed_ ? points_.size() - point : point + 1;
    }

    const Points& points_;
    bool is_reversed_;
    TableReader& table_;
};

LineOnDrawing rounded_line(
    const outline::KinkedCurve& curve,
    double kink_radius,
    const Numbering& numbering,
    TableReader& table
) {
    LineOnDrawing drawn;
    std::vector<drawing::RoundedKink> kinks;
    for (std::size_t i = 0; i < curve.kinks.size(); ++i) {
        kinks.push_back({numbering.at(curve.kinks[i]), curve.runs[i].turn_after, kink_radius});
    }
    const auto rounded = outline::round_kinks(curve.runs, kink_radius);
    if (!rounded) {
        const auto shown = [&table](double length) { return shown_length(length, table); };
        const outline::NoRoom& room = rounded.error();
        const auto problem = drawing::no_room_for(kinks[room.kink], room, shown);
        table.object_found("points", problem.found, problem.allowed, problem.remedy);
        return drawn;
    }
    for (const outline::RoundedPiece& each : *rounded) {
        drawn.pieces.push_back(
            {each.piece,
             each.source ? numbering.between(curve.from_point[each.run][*each.source])
                         : "the rounded kink at " + numbering.at(curve.kinks[each.run])}
        );
    }
    drawn.rounded_kinks = std::move(kinks);
    return drawn;
}

} // namespace

LineOnDrawing read_points(TableReader& table) {
    std::optional<Points> points = written_points(table);
    const std::optional<std::string> side = table.word("flange_side", side_words, Need::optional);
    const bool rounds_kinks = table.has("round_kinks");
    const std::optional<double> kink_radius = read_round_kinks(table);
    if (!points || !have_distances(*points, table) || (!rounds_kinks && has_kink(*points, table))
        || (rounds_kinks && !kink_radius)) {
        return {};
    }
    const bool is_reversed = side == "right"; // inside, the flange lies to the left
    if (is_reversed) {
        std::ranges::reverse(*points);
    }
    return rounded_line(
        outline::curve_between_kinks(*points),
        kink_radius.value_or(0),
        Numbering(*points, is_reversed, table),
        table
    );
}

} // namespace flangewright::case_file
