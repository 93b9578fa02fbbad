// Drawings written by us, read by our own reader and by another library (Debian's python3-ezdxf).
#include "io/drawing/dxf_file.hpp"
#include "io/paper/dxf_sheet.hpp"

#include <gmock/gmock.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>

namespace flangewright::paper {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

Sheet small_sheet() {
    Sheet sheet;
    sheet.paths.push_back({Pen::cut, {{{0, 0}, 0.5}, {{25.4, 0}, 0}, {{25.4, 50.8}, 0}}, true});
    sheet.add_line(Pen::bend, {0, 12.7}, {25.4, 12.7});
    sheet.circles.push_back({Pen::hole, {12.7, 25.4}, 2.54});
    sheet.words.push_back(
        {{0, 60},
         "Gr\xC3\xB6\xC3\x9F"
         "e 5",
         3,
         0,
         false}
    );
    return sheet;
}

TEST(DxfSheet, IsReadBackByOurOwnReaderInItsUnit) {
    for (const auto unit : {units::LengthUnit::millimetre, units::LengthUnit::inch}) {
        const double mm = unit == units::LengthUnit::inch ? 25.4 : 1;
        const auto read = drawing::read_drawing(dxf_of(small_sheet(), unit), "bend_line");
        ASSERT_TRUE(read) << read.error().found;
        EXPECT_EQ(read->mm_per_unit, mm);
        ASSERT_EQ(read->strokes.size(), 1U);
        EXPECT_NEAR(mm * read->strokes[0].end.x(), 25.4, 1e-6);
        EXPECT_NEAR(mm * read->strokes[0].end.y(), 12.7, 1e-6);
    }
}

TEST(DxfSheet, KeepsArcsAsArcs) {
    const auto read =
        drawing::read_drawing(dxf_of(small_sheet(), units::LengthUnit::millimetre), "CUT_OUTLINE");
    ASSERT_TRUE(read);
    ASSERT_EQ(read->strokes.size(), 3U); // closed
    EXPECT_GT(read->strokes[0].pieces.front().curvature, 0); // to the left
    EXPECT_NEAR(
        1 / read->strokes[0].pieces.front().curvature, bulge_radius({0, 0}, {25.4, 0}, 0.5), 1e-6
    );
}

// What another library makes of it; empty where there is none.
std::string as_read_elsewhere(const std::string& dxf) {
    const std::filesystem::path file = std::filesystem::temp_directory_path()
        / ("flangewright-dxf-" + std::to_string(getpid()) + ".dxf");
    std::ofstream(file, std::ios::binary) << dxf;
    const std::string command = "/usr/bin/python3 -B " FLANGEWRIGHT_SOURCE_DIR
                                "/tests/io/paper/read_dxf.py "
        + file.string() + " 2>&1";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string text;
    std::array<char, 512> part{};
    while (fgets(part.data(), part.size(), pipe.get()) != nullptr) {
        text += part.data();
    }
    std::filesystem::remove(file);
    return text.find("No module named 'ezdxf'") == std::string::npos ? text : "";
}

TEST(DxfSheet, IsSoundToAnotherLibrary) {
    const std::string text = as_read_elsewhere(dxf_of(small_sheet(), units::LengthUnit::inch));
    if (text.empty()) {
        GTEST_SKIP() << "needs python3-ezdxf";
    }
    EXPECT_THAT(text, StartsWith("version AC1015 unit 1\nerrors 0\n"));
    EXPECT_THAT(
        text,
        HasSubstr("CUT_OUTLINE polyline closed 0.0000,0.0000,0.5000 1.0000,0.0000,0.0000 "
                  "1.0000,2.0000,0.0000\n")
    );
    EXPECT_THAT(text, HasSubstr("BEND_LINE polyline open 0.0000,0.5000,0.0000"));
    EXPECT_THAT(text, HasSubstr("HOLES circle 0.5000,1.0000 0.1000"));
    EXPECT_THAT(
        text,
        HasSubstr("TEXT text Gr\xC3\xB6\xC3\x9F"
                  "e 5\n")
    );
}

} // namespace
} // namespace flangewright::paper
