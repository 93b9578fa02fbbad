#include "io/blank_template/tool_sheets.hpp"
#include "tests/io/blank_template/template_parts.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::blank_template {
namespace {

using paper::Pen;
using paper::Sheet;

constexpr double degree = std::numbers::pi / 180;
constexpr double fine = 0.01; // mm: chords

double furthest(const Sheet& sheet, const job::Blank& blank, Pen pen) {
    double most = -1e9;
    for (const paper::Path& path : sheet.paths) {
        if (path.pen == pen) {
            for (const Eigen::Vector2d& point : paper::flattened(path, 0.001)) {
                most = std::max(most, blank.line.locate({point.x(), point.y(), 0}).distance);
            }
        }
    }
    return most;
}

bool says(const Sheet& sheet, const std::string& words) {
    return std::ranges::any_of(sheet.words, [&words](const paper::Words& line) {
        return line.text.find(words) != std::string::npos;
    });
}

TEST(ToolSheets, EndTheFormBlockWhereItsNoseMeetsTheWall) {
    TemplateRequest request = full_request();
    const Sheet square = form_block_sheet(request);
    EXPECT_NEAR(furthest(square, request.job.blank, Pen::form_block), 2.4, fine);
    EXPECT_TRUE(says(square, "wall square"));
    request.job.block.wall_angle = 93 * degree; // the nose is widest at 90 still
    const Sheet undercut = form_block_sheet(request);
    EXPECT_NEAR(furthest(undercut, request.job.blank, Pen::form_block), 2.4, fine);
    EXPECT_TRUE(says(undercut, "undercut 3 deg"));
    request.job.block.wall_angle = 60 * degree;
    const Sheet leaning = form_block_sheet(request);
    EXPECT_NEAR(
        furthest(leaning, request.job.blank, Pen::form_block), 2.4 * std::sin(60 * degree), fine
    );
    EXPECT_TRUE(says(leaning, "leaning out 30 deg"));
}

TEST(ToolSheets, SetTheBackingBackAndShowItsPins) {
    const TemplateRequest request = full_request();
    const Sheet sheet = backing_sheet(request);
    EXPECT_NEAR(furthest(sheet, request.job.blank, Pen::backing), -1.5, fine);
    EXPECT_EQ(sheet.circles.size(), 1U); // the pin, not the rivet hole
}

/// The path of a pen in a section with one view.
paper::Path path_of(const Sheet& sheet, Pen pen) {
    for (const paper::Path& path : sheet.paths) {
        if (path.pen == pen) {
            return path;
        }
    }
    return {};
}

TEST(ToolSheets, CutTheNoseAndTheSheetAcrossAtRealSize) {
    TemplateRequest request = full_request();
    const Sheet sheet = section_sheet(request, outline::Profile({{0, 18}}));
    const paper::Path block = path_of(sheet, Pen::section);
    EXPECT_NEAR(
        paper::bulge_radius(block.vertices[1].at, block.vertices[2].at, block.vertices[1].bulge),
        2.4,
        1e-9
    );
    // Depth: from the web's outer face, down the flange to its edge.
    const paper::Path metal = path_of(sheet, Pen::sheet);
    double low = 1e9;
    double high = -1e9;
    for (const Eigen::Vector2d& point : paper::flattened(metal, 0.001)) {
        low = std::min(low, point.y());
        high = std::max(high, point.y());
    }
    EXPECT_NEAR(high - low, 18, 1e-6);
    EXPECT_NEAR(high, 0.8, 1e-9);
}

TEST(ToolSheets, LeanTheWallBackUnderTheFaceWhereItIsUndercut) {
    TemplateRequest request = full_request();
    request.job.block.wall_angle = 95 * degree;
    const paper::Path block =
        path_of(section_sheet(request, outline::Profile({{0, 18}})), Pen::section);
    const Eigen::Vector2d wall = block.vertices[3].at - block.vertices[2].at;
    EXPECT_NEAR(std::atan2(-wall.x(), -wall.y()), 5 * degree, 1e-9);
}

TEST(ToolSheets, DrawASectionForEachPointOfAWallThatVaries) {
    TemplateRequest request = full_request();
    request.job.block.wall_angle = 90 * degree;
    request.job.block.wall_angles = outline::Profile({{0, 80 * degree}, {80, 90 * degree}});
    const Sheet sheet = section_sheet(request, outline::Profile({{0, 18}, {80, 14}}));
    EXPECT_TRUE(says(sheet, "station 0.00 mm"));
    EXPECT_TRUE(says(sheet, "leaning out 10 deg"));
    EXPECT_TRUE(says(sheet, "flange depth 14.00 mm"));
    EXPECT_EQ(std::ranges::count(sheet.paths, Pen::sheet, &paper::Path::pen), 2);
}

} // namespace
} // namespace flangewright::blank_template
