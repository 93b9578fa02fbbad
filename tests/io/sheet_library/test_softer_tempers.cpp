// Softer tempers of the same alloy, as far as the library has them.
#include "io/sheet_library/sheet_library.hpp"
#include "io/sheet_library/softer_tempers.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::sheet_library {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

std::vector<std::string> softer_than(const std::string& name) {
    const KnownSheet* sheet = find_sheet(name);
    EXPECT_NE(sheet, nullptr) << name;
    std::vector<std::string> names;
    for (const material::SheetMaterial& each : softer_tempers_of(sheet->material)) {
        names.push_back(each.name);
    }
    return names;
}

TEST(SofterTempers, ReadAlloyAndTemperOffTheName) {
    EXPECT_EQ(alloy_and_temper_of("2024-T3 clad").alloy, "2024");
    EXPECT_EQ(alloy_and_temper_of("2024-T3 clad").temper, "T3");
    EXPECT_EQ(alloy_and_temper_of("2024-T3 clad").rest, " clad");
    EXPECT_EQ(alloy_and_temper_of("3003-H14").temper, "H14");
    EXPECT_EQ(alloy_and_temper_of("7075-O").temper, "O");
    for (const char* other :
         {"4130 normalized", "304 annealed", "own sheet", "2024", "2024-X", ""}) {
        EXPECT_EQ(alloy_and_temper_of(other).alloy, "") << other;
    }
}

TEST(SofterTempers, AreOfTheSameAlloyAndTheLeastSoftComesFirst) {
    const std::vector<std::string> names = softer_than("2024-T3");
    ASSERT_FALSE(names.empty());
    EXPECT_EQ(names.back(), "2024-O");
    EXPECT_THAT(names, Contains("2024-T4"));
    EXPECT_THAT(names, Not(Contains("2024-T3")));
    EXPECT_THAT(softer_than("6061-T6"), ElementsAre("6061-T4", "6061-O"));
    EXPECT_THAT(softer_than("5052-H32"), ElementsAre("5052-O"));
}

TEST(SofterTempers, OfCladSheetAreClad) {
    EXPECT_THAT(softer_than("2024-T3 clad"), ElementsAre("2024-O clad"));
}

TEST(SofterTempers, OfSoftSheetAndOfSheetsWithoutTemperAreNone) {
    EXPECT_THAT(softer_than("2024-O"), IsEmpty());
    EXPECT_THAT(softer_than("4130 normalized"), IsEmpty());
}

// In a process of its own state: the library is one for all.
TEST(SofterTempers, AUsersOwnStandsForTheBuiltInOfThatName) {
    Library library{built_in_sheets(), {}};
    KnownSheet own = *std::ranges::find(library.sheets, "6061-O", [](const KnownSheet& sheet) {
        return sheet.material.name;
    });
    own.material.own_file = "mine.toml";
    library.sheets.push_back(own);
    use_library(std::move(library));
    const std::vector<material::SheetMaterial> softer =
        softer_tempers_of(find_sheet("6061-T6")->material);
    use_library({built_in_sheets(), {}});
    ASSERT_EQ(softer.size(), 2U);
    EXPECT_EQ(softer.back().own_file, "mine.toml");
}

} // namespace
} // namespace flangewright::sheet_library
