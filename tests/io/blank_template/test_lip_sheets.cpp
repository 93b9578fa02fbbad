#include "io/blank_template/lip_section.hpp"
#include "io/blank_template/lip_sheets.hpp"
#include "tests/io/blank_template/lip_request.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace flangewright::blank_template {
namespace {

using job::LipSide;
using paper::Pen;
using paper::Sheet;

constexpr double chords = 0.01; // mm

/// Distances from the bend line that the paths of a pen have in the middle of the line.
std::vector<double> distances_of(const Sheet& sheet, const job::Blank& blank, Pen pen) {
    std::vector<double> found;
    for (const paper::Path& path : sheet.paths) {
        for (const Eigen::Vector2d& point : paper::flattened(path, 0.001)) {
            if (path.pen == pen) {
                found.push_back(blank.line.locate({point.x(), point.y(), 0}).distance);
            }
        }
    }
    return found;
}

bool tells(const Sheet& sheet, const std::string& words) {
    std::string all; // long lines are broken
    for (const paper::Words& line : sheet.words) {
        all += line.text + " ";
    }
    return all.find(words) != std::string::npos;
}

TEST(LipSheets, DrawTheBlockUnderTheWebUpToItsNose) {
    const TemplateRequest request = lip_request(LipSide::under_web);
    const Sheet sheet = lip_block_sheet(request);
    const std::vector<double> at = distances_of(sheet, request.job.blank, Pen::lip_block);
    EXPECT_NEAR(*std::ranges::max_element(at), 2.4, chords); // a square wall: below the first nose
    EXPECT_NEAR(*std::ranges::min_element(at), -40, chords);
    const double end = 2.4 - 2; // the nose ends its radius further in
    EXPECT_TRUE(std::ranges::any_of(at, [end](double d) { return std::abs(d - end) < chords; }));
    EXPECT_TRUE(tells(sheet, "Lip's nose radius 2.00 mm"));
}

TEST(LipSheets, DrawTheBlockOutsideTheFlangeClearOfTheCentre) {
    TemplateRequest request = lip_request(LipSide::away_from_web);
    const std::vector<double> at =
        distances_of(lip_block_sheet(request), request.job.blank, Pen::lip_block);
    EXPECT_NEAR(*std::ranges::min_element(at), 3.2, chords); // the flange's outside
    EXPECT_NEAR(*std::ranges::max_element(at), 3.2 + 2 + 8 + 12, chords);
    request.job.blank.line = outline::BendLine::arc(15, 0.4, outline::Curve::concave);
    const std::vector<double> tight =
        distances_of(lip_block_sheet(request), request.job.blank, Pen::lip_block);
    EXPECT_LT(*std::ranges::max_element(tight), 15);
}

TEST(LipSheets, GiveTheSectionItsDimensions) {
    TemplateRequest request = lip_request(LipSide::under_web);
    Sheet sheet = lip_section_sheet(request);
    EXPECT_TRUE(tells(sheet, "flange depth 18.00 mm"));
    EXPECT_TRUE(tells(sheet, "lip depth 8.00 mm"));
    EXPECT_TRUE(tells(sheet, "block 16.40 mm"));
    EXPECT_TRUE(tells(sheet, "No part was formed"));
    EXPECT_GE(std::ranges::count(sheet.paths, Pen::dimension, &paper::Path::pen), 9);
    request.lip_angles = {1.5, 1.52};
    sheet = lip_section_sheet(request);
    EXPECT_TRUE(tells(sheet, "the lip stands at 85.9 to 87.1 deg to the flange"));
}

TEST(LipSheets, CutTheOuterBlockOnALayerOfItsOwn) {
    const Sheet outside = lip_section_sheet(lip_request(LipSide::away_from_web));
    EXPECT_EQ(std::ranges::count(outside.paths, Pen::lip_block, &paper::Path::pen), 1);
    const Sheet under = lip_section_sheet(lip_request(LipSide::under_web));
    EXPECT_EQ(std::ranges::count(under.paths, Pen::lip_block, &paper::Path::pen), 0);
}

} // namespace
} // namespace flangewright::blank_template
