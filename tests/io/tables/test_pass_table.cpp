#include "io/tables/pass_table.hpp"
#include "tests/support/made_up_passes.hpp"

#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using units::LengthUnit;

TEST(PassTable, FindsTheMostStretchedAndTheMostShrunkPlace) {
    const process::DriveRecord record = support::made_up_record(0.1);
    EXPECT_DOUBLE_EQ(most_stretched(record).strain, 0.11);
    EXPECT_EQ(most_stretched(record).station, 40);
    EXPECT_DOUBLE_EQ(most_shrunk(record).strain, -0.02);
    EXPECT_EQ(most_shrunk(record).station, 80);
}

TEST(PassTable, HasTwoRowsForEachPassAndTwoForTheWay) {
    const std::vector<PassRow> rows = pass_rows(support::made_up_passes(), LengthUnit::millimetre);
    ASSERT_EQ(rows.size(), 6U);
    EXPECT_EQ(rows[2].head, "pass 2, to 90.0 deg: flange angle");
    EXPECT_EQ(rows[2].as_driven, "88.8 deg");
    EXPECT_EQ(rows[3].as_driven, "10.5 % at 40.00 mm");
    EXPECT_EQ(rows[3].even, "5.1 % at 40.00 mm");
    EXPECT_EQ(rows[4].head, "on the way: most stretched");
    EXPECT_EQ(rows[4].as_driven, "11.6 % at 40.00 mm");
    EXPECT_EQ(rows[5].as_driven, "-2.0 % at 80.00 mm");
    EXPECT_EQ(
        pass_rows(support::made_up_passes(), LengthUnit::inch)[3].as_driven, "10.5 % at 1.575 in"
    );
}

TEST(PassTable, LeavesTheEvenDriveEmptyWhereThereIsNone) {
    process::PassResult passes = support::made_up_passes();
    passes.even.reset();
    for (const PassRow& row : pass_rows(passes, LengthUnit::millimetre)) {
        EXPECT_EQ(row.even, "");
        EXPECT_NE(row.as_driven, "");
    }
}

// A run that was stopped after its first pass.
TEST(PassTable, ShowsThePassesThatWereFinished) {
    process::PassResult passes = support::made_up_passes();
    passes.as_driven.passes.pop_back();
    EXPECT_EQ(pass_rows(passes, LengthUnit::millimetre).size(), 4U);
    passes = support::made_up_passes();
    passes.even->passes.clear();
    EXPECT_EQ(pass_rows(passes, LengthUnit::millimetre)[0].even, "-");
}

TEST(PassTable, SaysTheOrderInWords) {
    job::Drive drive;
    EXPECT_EQ(pass_words(drive), "evenly, in one pass");
    drive.order = job::DriveOrder::ends_first;
    drive.passes = {0.5, 1.0, 1.5};
    EXPECT_EQ(pass_words(drive), "from both ends to the middle, in 3 passes");
    drive.order = job::DriveOrder::from_start;
    EXPECT_EQ(pass_words(drive), "from the start of the line to its end, in 3 passes");
    drive.order = job::DriveOrder::from_end;
    EXPECT_EQ(pass_words(drive), "from the end of the line to its start, in 3 passes");
}

} // namespace
} // namespace flangewright::tables
