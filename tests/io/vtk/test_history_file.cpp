#include "io/vtk/history_file.hpp"

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

} // namespace
} // namespace flangewright::vtk
