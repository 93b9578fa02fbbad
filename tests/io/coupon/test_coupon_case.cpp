#include "tests/io/coupon/coupon_parts.hpp"

#include <gmock/gmock.h>

namespace flangewright::coupon {
namespace {

using ::testing::HasSubstr;

constexpr double written = 1e-4; // digits of radii, angles and lengths in the case

TEST(CouponCase, KeepsSheetNoseAndDriveOfTheOwnCase) {
    const CouponParts parts = coupon_parts(case_file::with_line(
        16,
        "end = \"continues\"\nedge = \"filed\"",
        case_file::with_line(
            25, "clearance = 1.2\npasses = [30, 60, 90]\norder = \"ends first\"\nfront = 40"
        )
    ));
    const job::Job& own = parts.own.job;
    const job::Job& job = parts.read.job;
    EXPECT_EQ(job.sheet.material.name, own.sheet.material.name);
    EXPECT_EQ(job.sheet.thickness, own.sheet.thickness);
    EXPECT_EQ(job.sheet.rolling_direction, own.sheet.rolling_direction);
    EXPECT_EQ(job.blank.edge_finish, material::EdgeFinish::filed);
    EXPECT_EQ(job.block.nose_radius, own.block.nose_radius);
    EXPECT_EQ(job.block.backing_setback, own.block.backing_setback);
    EXPECT_EQ(job.drive.kind, own.drive.kind);
    EXPECT_EQ(job.drive.clearance, own.drive.clearance);
    EXPECT_EQ(job.drive.passes.size(), 3U);
    EXPECT_EQ(job.drive.order, job::DriveOrder::ends_first);
    EXPECT_EQ(job.drive.front, own.drive.front);
    EXPECT_EQ(job.blank.trim_allowance, 0);
    EXPECT_FALSE(job.return_bend.has_value());
}

TEST(CouponCase, HasTheArcsOfTheFlangeInOrder) {
    const CouponParts parts = coupon_parts();
    const std::vector<outline::Piece> pieces = parts.read.job.blank.line.pieces();
    ASSERT_EQ(pieces.size(), parts.flange.steps.size());
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const FlangeStep& step = parts.flange.steps[i];
        const bool is_end = i == 0 || i + 1 == pieces.size();
        EXPECT_NEAR(1 / pieces[i].curvature, step.radius, written);
        EXPECT_NEAR(pieces[i].length, step.length + (is_end ? parts.flange.run_out : 0), written);
    }
    EXPECT_NEAR(parts.read.job.blank.flange_width, parts.flange.flat_width, written);
}

TEST(CouponCase, TakesOverASheetThatIsWrittenOutInInches) {
    const std::string own = R"(title = "Rib"
unit = "in"
[bend_line]
curve = "straight"
length = 4
[sheet]
thickness = 0.032
[sheet.material]
name = "lot 7"
youngs_modulus = "10.6 Msi"
poisson_ratio = 0.33
uniform_elongation = "15 %"
[sheet.material.forming_limit]
points = [
    [-0.1, 0.34], [0, 0.24]]
[sheet.material.hardening]
law = "voce"
yield_stress = "76 MPa"
saturation_stress = "229 MPa"
rate = 16.6
[blank]
web_width = 2
flange_depth = "3/4"
[block]
nose_radius = "3/32"
[drive]
kind = "leaf"
)";
    const CouponParts parts = coupon_parts(own);
    EXPECT_EQ(parts.read.unit, units::LengthUnit::inch);
    EXPECT_EQ(parts.read.job.sheet.material.name, "lot 7");
    EXPECT_NEAR(parts.read.job.sheet.thickness, 0.8128, 1e-9);
    EXPECT_EQ(parts.read.job.sheet.material.forming_limit->points.size(), 2U);
    EXPECT_EQ(parts.read.job.drive.kind, job::DriveKind::leaf);
}

TEST(CouponCase, RefusesASheetInAnotherForm) {
    const CouponParts parts = coupon_parts();
    const auto text = coupon_case(parts.own, "sheet = { }\n", parts.flange, "own.toml");
    ASSERT_FALSE(text.has_value());
    EXPECT_THAT(key_file::line_for(text.error()), HasSubstr("allowed a section [sheet]"));
}

} // namespace
} // namespace flangewright::coupon
