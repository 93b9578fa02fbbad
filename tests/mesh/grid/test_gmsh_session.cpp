#include "mesh/base/check.hpp"
#include "mesh/grid/gmsh_session.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <clocale>
#include <csignal>
#include <limits>
#include <string>
#include <thread>

namespace flangewright::grid {
namespace {

PatchNet square() {
    PatchNet net;
    net.corners = {{{0, 0, 0}, {0, 1, 0}}, {{1, 0, 0}, {1, 1, 0}}};
    net.along = {{2, 1}};
    net.across = {{3, 1}};
    return net;
}

void our_handler(int) {}

TEST(GmshSession, MeshesASquareInRowsAndColumns) {
    const Result<PatchMesh> mesh = mesh_patches(square());
    ASSERT_TRUE(mesh.has_value());
    EXPECT_EQ(mesh->positions.cols(), 3 * 4);
    EXPECT_EQ(mesh->quads.size(), 2U * 3U);
}

TEST(GmshSession, PrintsNothing) {
    testing::internal::CaptureStdout();
    testing::internal::CaptureStderr();
    const bool is_meshed = mesh_patches(square()).has_value();
    EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
    EXPECT_TRUE(is_meshed);
}

TEST(GmshSession, WorksAgainAfterwards) {
    EXPECT_TRUE(mesh_patches(square()).has_value());
    EXPECT_TRUE(mesh_patches(square()).has_value());
}

// The library hangs on such a net.
TEST(GmshSession, CornerThatIsNoPlaceIsACallersBug) {
    PatchNet net = square();
    net.corners[1][1].x() = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW((void)mesh_patches(net), InternalError);
}

TEST(GmshSession, LeavesSignalHandlersAndLocaleAlone) {
    const std::string locale_before = std::setlocale(LC_ALL, "C.UTF-8");
    const auto handler_before = std::signal(SIGINT, our_handler);
    ASSERT_TRUE(mesh_patches(square()).has_value());
    EXPECT_EQ(std::signal(SIGINT, handler_before), our_handler);
    EXPECT_EQ(std::setlocale(LC_ALL, nullptr), locale_before);
    std::setlocale(LC_ALL, "C");
}

TEST(GmshSession, ManyThreadsMayAskAtOnce) {
    std::array<bool, 4> is_whole{};
    {
        std::array<std::jthread, 4> threads;
        for (std::size_t i = 0; i < threads.size(); ++i) {
            threads[i] = std::jthread([&is_whole, i] {
                const Result<PatchMesh> mesh = mesh_patches(square());
                is_whole[i] = mesh.has_value() && mesh->quads.size() == 6;
            });
        }
    }
    EXPECT_THAT(is_whole, testing::Each(true));
}

} // namespace
} // namespace flangewright::grid
