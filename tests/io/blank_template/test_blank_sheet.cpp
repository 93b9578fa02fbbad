#include "io/blank_template/blank_sheet.hpp"
#include "tests/io/blank_template/template_parts.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

namespace flangewright::blank_template {
namespace {

using paper::Pen;
using paper::Sheet;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<paper::Path> paths_of(const Sheet& sheet, Pen pen) {
    std::vector<paper::Path> found;
    for (const paper::Path& path : sheet.paths) {
        if (path.pen == pen) {
            found.push_back(path);
        }
    }
    return found;
}

bool says(const Sheet& sheet, const std::string& words) {
    return std::ranges::any_of(sheet.words, [&words](const paper::Words& line) {
        return line.text.find(words) != std::string::npos;
    });
}

/// Least and largest distance of a path past the bend line.
std::pair<double, double> reach(const Sheet& sheet, const job::Blank& blank, Pen pen) {
    std::pair<double, double> range{1e9, -1e9};
    for (const paper::Path& path : paths_of(sheet, pen)) {
        for (const Eigen::Vector2d& point : paper::flattened(path, 0.001)) {
            const double distance = blank.line.locate({point.x(), point.y(), 0}).distance;
            range = {std::min(range.first, distance), std::max(range.second, distance)};
        }
    }
    return range;
}

constexpr double fine = 0.01; // mm: chords

TEST(BlankSheet, HasNetAndCutOutlineTheAllowanceApart) {
    const TemplateRequest request = full_request();
    const Sheet sheet = blank_sheet(request);
    const auto [net_least, net_most] = reach(sheet, request.job.blank, Pen::net);
    EXPECT_NEAR(net_least, 18, fine);
    EXPECT_NEAR(net_most, 19, fine);
    const auto [cut_least, cut_most] = reach(sheet, request.job.blank, Pen::cut);
    EXPECT_NEAR(cut_least, -40, fine);
    EXPECT_NEAR(cut_most, 22, fine);
}

TEST(BlankSheet, HasBothBendTangents) {
    const TemplateRequest request = full_request();
    const Sheet sheet = blank_sheet(request);
    EXPECT_NEAR(reach(sheet, request.job.blank, Pen::bend).second, 0, fine);
    const double allowance = 0.5 * std::numbers::pi * (2.4 + 0.4);
    const auto [least, most] = reach(sheet, request.job.blank, Pen::tangent);
    EXPECT_NEAR(least, allowance, fine);
    EXPECT_NEAR(most, allowance, fine);
}

TEST(BlankSheet, IsOpenWhereThePartGoesOnAndSaysSo) {
    TemplateRequest request = full_request();
    const Sheet half = blank_sheet(request);
    ASSERT_EQ(paths_of(half, Pen::cut).size(), 1U);
    EXPECT_FALSE(paths_of(half, Pen::cut).front().is_closed);
    EXPECT_EQ(paths_of(half, Pen::middle).size(), 1U);
    EXPECT_TRUE(says(half, "turn over here"));
    request.job.blank.end = job::EndKind::free;
    const Sheet whole = blank_sheet(request);
    EXPECT_TRUE(paths_of(whole, Pen::cut).front().is_closed);
    EXPECT_TRUE(paths_of(whole, Pen::middle).empty());
    request.job.blank.start = request.job.blank.end = job::EndKind::continues;
    const Sheet slice = blank_sheet(request);
    EXPECT_EQ(paths_of(slice, Pen::cut).size(), 2U);
    EXPECT_EQ(paths_of(slice, Pen::middle).size(), 2U);
}

TEST(BlankSheet, NumbersStationsInTheShopsUnit) {
    TemplateRequest request = full_request(); // 80 mm long
    const Sheet metric = blank_sheet(request);
    for (const char* number : {"0", "5", "80"}) {
        EXPECT_THAT(metric.words, Contains(Field(&paper::Words::text, number)));
    }
    request.unit = units::LengthUnit::inch;
    const Sheet inch = blank_sheet(request);
    for (const char* number : {"0.25", "3"}) {
        EXPECT_THAT(inch.words, Contains(Field(&paper::Words::text, number)));
    }
    EXPECT_THAT(inch.words, Not(Contains(Field(&paper::Words::text, "80"))));
}

TEST(BlankSheet, ShowsTheGrainOnlyWhereItIsStated) {
    TemplateRequest request = full_request();
    // Along the line in the middle of the part, which is the end of this half: turned by 0.2 from
    // the line's middle, where the drawing's x axis lies.
    const std::vector<paper::Path> arrow = paths_of(blank_sheet(request), Pen::grain);
    ASSERT_FALSE(arrow.empty());
    const Eigen::Vector2d way = arrow.front().vertices[1].at - arrow.front().vertices[0].at;
    EXPECT_NEAR(std::abs(way.y() / way.x()), std::tan(0.2), 1e-9);
    EXPECT_GT(way.y() / way.x(), 0); // a concave line turns to the left
    request.shows_grain = false;
    EXPECT_TRUE(paths_of(blank_sheet(request), Pen::grain).empty());
}

TEST(BlankSheet, ShowsHolesNotesAndCautions) {
    TemplateRequest request = full_request();
    request.notes = {"Formed 2 times."};
    const Sheet sheet = blank_sheet(request);
    ASSERT_EQ(sheet.circles.size(), 2U);
    EXPECT_NEAR(sheet.circles[0].radius, 2.5, fine);
    for (const char* words :
         {"Made-up part",
          "2024-O, 0.80 mm",
          "pin",
          "Formed 2 times.",
          "check both bars",
          "approved data decide",
          "trimmed off"}) {
        EXPECT_TRUE(says(sheet, words)) << words;
    }
}

TEST(FlangeTangents, FollowAWallThatVaries) {
    job::Job job = full_request().job;
    job.block.wall_angles = outline::Profile({{0, 1.4}, {80, 1.6}});
    job.block.wall_angle = 1.6;
    job.drive.angle = 1.6;
    EXPECT_NEAR(flange_tangents(job).at(40), 1.5 * 2.8, 1e-9);
}

} // namespace
} // namespace flangewright::blank_template
