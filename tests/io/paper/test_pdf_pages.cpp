// Pages as a printer would make them: rendered by another program (Debian's poppler-utils) and
// measured in dots.
#include "io/paper/pdf_pages.hpp"

#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace flangewright::paper {
namespace {

namespace fs = std::filesystem;

constexpr double mm_per_inch = 25.4;
constexpr int fine = 1200; // dots per inch
constexpr double dot = mm_per_inch / fine;

Sheet wide_sheet() {
    Sheet sheet;
    sheet.name = "blank";
    sheet.add_line(Pen::cut, {0, 0}, {250, 0});
    sheet.add_line(Pen::cut, {0, 0}, {0, 150});
    return sheet;
}

std::string pdf(const PageSize& page) {
    const Result<std::string> bytes =
        pdf_of({wide_sheet(), wide_sheet()}, page, {"Trial", "Check the bars."});
    EXPECT_TRUE(bytes);
    return bytes.value_or("");
}

TEST(PdfPages, AreAWholeDocument) {
    const std::string bytes = pdf(a4());
    EXPECT_EQ(bytes.substr(0, 5), "%PDF-");
    EXPECT_NE(bytes.find("%%EOF"), std::string::npos);
}

// A grey picture of the first page, or of its lower part.
struct Picture {
    int width = 0;
    int height = 0;
    std::string dots;

    [[nodiscard]] bool is_dark(int x, int y) const {
        return static_cast<unsigned char>(dots[static_cast<std::size_t>(y) * width + x]) < 128;
    }
};

Picture picture_of(const std::string& bytes, int dots_per_inch, int first_row) {
    const std::string stem =
        (fs::temp_directory_path() / ("flangewright-pdf-" + std::to_string(getpid()))).string();
    std::ofstream(stem + ".pdf", std::ios::binary) << bytes;
    const std::string command = "pdftoppm -gray -singlefile -r " + std::to_string(dots_per_inch)
        + " -x 0 -y " + std::to_string(first_row) + " -W 5400 -H 750 " + stem + ".pdf " + stem
        + " 2>/dev/null";
    Picture picture;
    if (std::system(command.c_str()) == 0) {
        std::ifstream file(stem + ".pgm", std::ios::binary);
        std::string magic;
        int most = 0;
        file >> magic >> picture.width >> picture.height >> most;
        file.get();
        picture.dots.assign(std::istreambuf_iterator<char>(file), {});
    }
    fs::remove(stem + ".pdf");
    fs::remove(stem + ".pgm");
    return picture;
}

// Dark dots one after the other in a row, from the page's left margin on.
double length_of_bar(const Picture& picture, int row) {
    const int begin = static_cast<int>(page_margin / dot);
    int longest = 0;
    for (int x = begin - 5; x < begin + 5; ++x) {
        int n = 0;
        while (x + n < picture.width && picture.is_dark(x + n, row)) {
            ++n;
        }
        longest = std::max(longest, n);
    }
    return longest * dot;
}

TEST(PdfPages, HaveTheirSize) {
    constexpr int coarse = 60;
    constexpr double coarse_dot = mm_per_inch / coarse;
    for (const PageSize& page : {a4(), letter()}) {
        const Picture picture = picture_of(pdf(page), coarse, 0);
        if (picture.width == 0) {
            GTEST_SKIP() << "needs pdftoppm of poppler-utils";
        }
        // Lying: the drawing is wider than a page is.
        EXPECT_NEAR(picture.width * coarse_dot, page.height, 2 * coarse_dot) << page.name;
        EXPECT_NEAR(picture.height * coarse_dot, page.width, 2 * coarse_dot) << page.name;
    }
}

TEST(PdfPages, HaveBarsOfHundredMillimetresAndFourInches) {
    const auto foot = static_cast<int>((a4().width - page_margin - page_foot + 9) / dot);
    const Picture picture = picture_of(pdf(a4()), fine, foot);
    if (picture.width == 0) {
        GTEST_SKIP() << "needs pdftoppm of poppler-utils";
    }
    std::vector<double> bars;
    for (int row = 0; row < picture.height; ++row) {
        const double length = length_of_bar(picture, row);
        if (length > 90 && (bars.empty() || std::abs(bars.back() - length) > 0.5)) {
            bars.push_back(length);
        }
    }
    // From the outer side of one end's stroke to the outer side of the other's.
    constexpr double stroke = 0.2;
    constexpr double wanted = 0.05; // mm
    ASSERT_EQ(bars.size(), 2U);
    EXPECT_NEAR(bars[0] - stroke, 100, wanted);
    EXPECT_NEAR(bars[1] - stroke, 101.6, wanted);
}

} // namespace
} // namespace flangewright::paper
