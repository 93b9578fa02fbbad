#include "io/part_view/packed.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace flangewright::part_view {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

int byte_at(const std::string& bytes, std::size_t place) {
    return static_cast<unsigned char>(bytes.at(place));
}

TEST(Packed, CubeHoldsAllShapesAndPassesOverWhatIsNoNumber) {
    Eigen::Matrix3Xd first(3, 2);
    first.col(0) = Eigen::Vector3d(-1, 2, 3);
    first.col(1) = Eigen::Vector3d(unknown, 100, 100);
    Eigen::Matrix3Xd second(3, 1);
    second.col(0) = Eigen::Vector3d(4, 1, 3.5);
    const Cube cube = cube_round({&first, &second});
    EXPECT_EQ(cube.low, Eigen::Vector3d(-1, 1, 3));
    EXPECT_EQ(cube.span, 5);
    EXPECT_EQ(cube_round({}).span, 1) << "never nothing, as it is divided by";
}

TEST(Packed, PointsComeBackToAStepOfTheCube) {
    Eigen::Matrix3Xd points(3, 2);
    points.col(0) = Eigen::Vector3d(0, 12.345, 100);
    points.col(1) = Eigen::Vector3d(-5, 50, unknown);
    const std::string bytes = packed_points(points, {Eigen::Vector3d::Zero(), 100});
    ASSERT_EQ(bytes.size(), 12U);
    const auto back = [&bytes](std::size_t place) {
        return 100.0 * (byte_at(bytes, 2 * place) + 256 * byte_at(bytes, 2 * place + 1)) / 65535;
    };
    constexpr double half_step = 0.5 * 100 / 65535 * 1.0001;
    EXPECT_NEAR(back(1), 12.345, half_step);
    EXPECT_EQ(back(2), 100);
    EXPECT_EQ(back(3), 0) << "beyond the cube: at its wall";
    EXPECT_EQ(back(5), 0) << "no number: at its corner";
}

TEST(Packed, FiguresKeepTheirEndsAndTheUnknownIsABytesOfItsOwn) {
    Eigen::VectorXd figures(5);
    figures << -10, 0, 10, 99, unknown;
    const std::string bytes = packed_figures(figures, -10, 10);
    EXPECT_EQ(byte_at(bytes, 0), 0);
    EXPECT_EQ(byte_at(bytes, 1), 127);
    EXPECT_EQ(byte_at(bytes, 2), 254);
    EXPECT_EQ(byte_at(bytes, 3), 254);
    EXPECT_EQ(byte_at(bytes, 4), no_figure_byte);
}

TEST(Packed, NumbersHaveTheirLowByteFirst) {
    EXPECT_EQ(packed_numbers({0x0102}, false), std::string("\x02\x01"));
    EXPECT_EQ(packed_numbers({0x00010203}, true), std::string("\x03\x02\x01\x00", 4));
}

} // namespace
} // namespace flangewright::part_view
