#include "io/vtk/history_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::vtk {
namespace {

TEST(HistoryFile, ListsEachShapeWithItsTime) {
    EXPECT_EQ(
        history_text({{"history/0001.vtu", 0}, {"history/0002.vtu", 1.25}}),
        "<?xml version=\"1.0\"?>\n"
        "<VTKFile type=\"Collection\" version=\"0.1\" byte_order=\"LittleEndian\">\n"
        "  <Collection>\n"
        "    <DataSet timestep=\"0\" part=\"0\" file=\"history/0001.vtu\"/>\n"
        "    <DataSet timestep=\"1.25\" part=\"0\" file=\"history/0002.vtu\"/>\n"
        "  </Collection>\n"
        "</VTKFile>\n"
    );
}

process::Frame frame(int step, double share_done) {
    process::Frame frame;
    frame.step = step;
    frame.share_done = share_done;
    return frame;
}

TEST(HistoryFile, PlaysEachMomentOnceTheEndOfAStepBeforeTheBeginOfTheNext) {
    const std::vector<process::Frame> frames{
        frame(0, 0), frame(0, 0.5), frame(0, 0.99999999), frame(0, 1), frame(1, 0), frame(1, 0.25)};
    EXPECT_THAT(played_frames(frames), testing::ElementsAre(0, 1, 3, 5));
    EXPECT_THAT(played_frames({}), testing::IsEmpty());
}

} // namespace
} // namespace flangewright::vtk
