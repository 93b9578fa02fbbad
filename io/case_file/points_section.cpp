// A bend line given by points of the drawing.
#include "io/case_file/sections.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"
#include "mesh/outline/curve_through.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

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
        "give more points round the corner if it is rounded; a flange round a sharp corner needs a "
        "relief notch and is two parts"
    );
    return true;
}

} // namespace

std::vector<ChainPiece> read_points(TableReader& table) {
    std::optional<Points> points = written_points(table);
    const std::optional<std::string> side = table.word("flange_side", side_words, Need::optional);
    std::vector<ChainPiece> pieces;
    if (!points || !have_distances(*points, table) || has_kink(*points, table)) {
        return pieces;
    }
    const bool is_reversed = side == "right"; // inside, the flange lies to the left
    if (is_reversed) {
        std::ranges::reverse(*points);
    }
    const outline::CurveThrough curve = outline::curve_through(*points);
    for (std::size_t i = 0; i < curve.pieces.size(); ++i) {
        const std::size_t from = curve.from_point[i];
        const std::size_t first = is_reversed ? points->size() - 1 - from : from + 1;
        pieces.push_back(
            {curve.pieces[i],
             fmt::format(
                 "the curve between points {} and {}, near {}",
                 first,
                 first + 1,
                 place_text(0.5 * ((*points)[from] + (*points)[from + 1]), table)
             )}
        );
    }
    return pieces;
}

} // namespace flangewright::case_file
