#include "io/tables/heat_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::tables {
namespace {

long n_rows_of(const std::string& what, const std::string& sheet, double thickness) {
    return std::ranges::count_if(heat_rows(), [&](const HeatRow& row) {
        return row.what == what && is_for(row, sheet, thickness);
    });
}

TEST(HeatTable, EachThicknessHasOneSoakAndOneDelay) {
    for (const double inches : {0.010, 0.016, 0.0165, 0.020, 0.025, 0.032, 0.040, 0.063, 0.125}) {
        EXPECT_EQ(n_rows_of("Soak, at least", "2024-O", 25.4 * inches), 1) << inches;
        EXPECT_EQ(n_rows_of("Furnace door to full immersion, at most", "7075-O", 25.4 * inches), 1)
            << inches;
    }
    EXPECT_EQ(n_rows_of("Soak, at least", "2024-O", 6), 0) << "no row for plate";
}

TEST(HeatTable, SpeaksOnlyOfSheetsThatTakeHeatTreatment) {
    EXPECT_EQ(n_rows_of("Solution temperature", "2024-T3", 1), 1);
    EXPECT_EQ(n_rows_of("Solution temperature", "5052-O", 1), 0);
    EXPECT_EQ(n_rows_of("Anneal", "5052-H32", 1), 1);
    EXPECT_EQ(n_rows_of("Soak, at least", "304 annealed", 1), 0);
}

TEST(HeatTable, EachRowSaysWhereItComesFrom) {
    for (const HeatRow& row : heat_rows()) {
        EXPECT_FALSE(row.standing.empty()) << row.what;
        EXPECT_FALSE(row.source.empty() && row.standing.find("no source") == std::string::npos);
    }
}

} // namespace
} // namespace flangewright::tables
