#include "io/record_pdf/pdf_paper.hpp"
#include "io/record_pdf/record_pdf.hpp"

#include <gmock/gmock.h>

namespace flangewright::record_pdf {
namespace {

using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::StartsWith;

/// Pages as the file's own tree counts them.
int n_pages(const std::string& pdf) {
    const std::string key = "/Count ";
    const std::size_t place = pdf.find(key);
    return place == std::string::npos ? 0 : std::stoi(pdf.substr(place + key.size()));
}

TEST(RecordPdf, IsAWholeFileWithItsTitle) {
    Record record;
    record.title = "Rib 7";
    record.rows = {{"1 bend-down", "flange angle", "90.0 deg", "89.5 deg", "+0.5 deg"}};
    const std::string pdf = pdf_of(record);
    EXPECT_THAT(pdf, StartsWith("%PDF-1."));
    EXPECT_THAT(pdf, EndsWith("%%EOF\n"));
    EXPECT_THAT(pdf, HasSubstr("/Title (Rib 7)"));
    EXPECT_EQ(n_pages(pdf), 1);
}

TEST(RecordPdf, LongTablesGoOnOverPages) {
    Record record;
    record.rows.assign(200, {"1 bend-down", "flange angle", "90.0 deg", "", ""});
    EXPECT_GT(n_pages(pdf_of(record)), 4);
}

TEST(RecordPdf, ADamagedPictureIsLeftOutAndTheRestStands) {
    Record record;
    record.pictures = {{"thinning.png", "\x89PNG no picture"}};
    const std::string pdf = pdf_of(record);
    EXPECT_THAT(pdf, EndsWith("%%EOF\n"));
    EXPECT_EQ(n_pages(pdf), 1);
}

} // namespace
} // namespace flangewright::record_pdf
