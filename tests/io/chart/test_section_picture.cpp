#include "io/chart/section_picture.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::chart {
namespace {

TEST(Section, HasItsFacesHalfAThicknessOffTheMiddle) {
    const outline::LineFrame frame = outline::BendLine::straight(100).frame(50);
    Eigen::Matrix3Xd positions(3, 2);
    positions << 0, 0, -10, 4, 0.5, -7;
    Eigen::Matrix3Xd directors(3, 2);
    directors << 0, 0, 0, 1, 1, 0;
    const Eigen::Vector2d thickness(1.0, 0.8);
    const SheetSection section = section_through({0, 1}, frame, positions, directors, thickness);
    constexpr double rounding = 1e-12;
    EXPECT_LT((section.block_face[0] - Eigen::Vector2d(-10, 0)).norm(), rounding);
    EXPECT_LT((section.outer_face[0] - Eigen::Vector2d(-10, 1)).norm(), rounding);
    EXPECT_LT((section.block_face[1] - Eigen::Vector2d(3.6, -7)).norm(), rounding);
    EXPECT_LT((section.outer_face[1] - Eigen::Vector2d(4.4, -7)).norm(), rounding);
}

TEST(Section, IsTheSameAllAlongAnArc) {
    const outline::BendLine line = outline::BendLine::arc(200, 0.8, outline::Curve::concave);
    for (const double station : {0.0, 33.0, 160.0}) {
        const outline::LineFrame frame = line.frame(station);
        const Eigen::Matrix3Xd positions = frame.point + 5 * frame.outward;
        const Eigen::Matrix3Xd directors = Eigen::Vector3d::UnitZ();
        const SheetSection section =
            section_through({0}, frame, positions, directors, Eigen::VectorXd::Constant(1, 0.8));
        constexpr double rounding = 1e-12;
        EXPECT_LT((section.outer_face[0] - Eigen::Vector2d(5, 0.4)).norm(), rounding);
    }
}

} // namespace
} // namespace flangewright::chart
