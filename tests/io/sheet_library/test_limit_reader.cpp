#include "io/sheet_library/limit_reader.hpp"
#include "tests/io/sheet_library/material_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::sheet_library {
namespace {

using material::DataGrade;
using material::EdgeFinish;
using ::testing::HasSubstr;

TEST(LimitReader, LeavesOutWhatIsNotWritten) {
    const ReadMaterial read = read_with("");
    ASSERT_TRUE(read.material.has_value()) << read.problem();
    EXPECT_FALSE(read.material->r_values.has_value());
    EXPECT_TRUE(read.material->edge_limits.empty());
    EXPECT_FALSE(read.material->forming_limit.has_value());
}

TEST(LimitReader, ReadsRValuesEachMayBeMissing) {
    const ReadMaterial read = read_with("[r_values]\nr0 = 0.8\nr90 = 0.54\ngrade = \"coupon\"\n"
                                        "source = \"strips 1 and 3\"\n");
    ASSERT_TRUE(read.material && read.material->r_values) << read.problem();
    EXPECT_DOUBLE_EQ(*read.material->r_values->r0, 0.8);
    EXPECT_FALSE(read.material->r_values->r45.has_value());
    EXPECT_DOUBLE_EQ(*read.material->r_values->r90, 0.54);
    EXPECT_EQ(read.material->r_values->grade, DataGrade::coupon);
    EXPECT_EQ(read.material->r_values->source, "strips 1 and 3");
}

TEST(LimitReader, RefusesAnRValueNoSheetHas) {
    EXPECT_THAT(
        read_with("[r_values]\nr45 = 83\n").problem(),
        HasSubstr("own.toml:9: r_values.r45: found 83, allowed 0.05 to 5")
    );
}

TEST(LimitReader, ReadsAnEdgeLimitOfEachFinishWithItsOwnGrade) {
    const ReadMaterial read = read_with(
        "[edge_limit]\nsnipped = { value = \"12 %\", grade = \"coupon\", source = \"hole 2\" }\n"
        "polished = \"21 %\"\n"
    );
    ASSERT_TRUE(read.material.has_value()) << read.problem();
    const auto& limits = read.material->edge_limits;
    ASSERT_EQ(limits.size(), 2U);
    EXPECT_DOUBLE_EQ(*limits.at(EdgeFinish::snipped).value, 0.12);
    EXPECT_EQ(limits.at(EdgeFinish::snipped).grade, DataGrade::coupon);
    EXPECT_EQ(limits.at(EdgeFinish::snipped).source, "hole 2");
    EXPECT_DOUBLE_EQ(*limits.at(EdgeFinish::polished).value, 0.21);
    EXPECT_EQ(limits.at(EdgeFinish::polished).grade, DataGrade::unknown);
}

TEST(LimitReader, NamesAFinishThatIsNotKnownAndTheOneMeant) {
    const std::string problem = read_with("[edge_limit]\nsniped = \"12 %\"\n").problem();
    EXPECT_THAT(problem, HasSubstr("own.toml:9: edge_limit.sniped"));
    EXPECT_THAT(problem, HasSubstr("snipped"));
}

TEST(LimitReader, RefusesAnEdgeLimitWithoutPercentSign) {
    EXPECT_THAT(
        read_with("[edge_limit]\nfiled = 12\n").problem(), HasSubstr("own.toml:9: edge_limit.filed")
    );
}

TEST(LimitReader, ReadsAFormingLimit) {
    const ReadMaterial read = read_with(
        "[forming_limit]\npoints = [[-0.1, 0.35], [0, 0.25], [0.1, 0.28]]\ngrade = \"published\"\n"
        "source = \"a paper\"\nflc0 = { value = 0.25, grade = \"coupon\", source = \"strip\" }\n"
    );
    ASSERT_TRUE(read.material && read.material->forming_limit) << read.problem();
    const material::FormingLimit& limit = *read.material->forming_limit;
    ASSERT_EQ(limit.points.size(), 3U);
    EXPECT_DOUBLE_EQ(limit.points[0].minor, -0.1);
    EXPECT_DOUBLE_EQ(limit.points[0].major, 0.35);
    EXPECT_EQ(limit.grade, DataGrade::published);
    EXPECT_DOUBLE_EQ(*limit.flc0.value, 0.25);
    EXPECT_EQ(limit.flc0.grade, DataGrade::coupon);
}

TEST(LimitReader, ReadsTheDirectionOfTheMajorStrain) {
    const ReadMaterial read = read_with("[forming_limit]\nflc0 = 0.25\ndirection = 90\n");
    ASSERT_TRUE(read.material && read.material->forming_limit) << read.problem();
    EXPECT_DOUBLE_EQ(read.material->forming_limit->direction, std::acos(0.0));
    EXPECT_THAT(
        read_with("[forming_limit]\nflc0 = 0.25\ndirection = 95\n").problem(),
        HasSubstr("own.toml:10: forming_limit.direction: found")
    );
}

TEST(LimitReader, RefusesFormingPointsOutOfOrder) {
    EXPECT_THAT(
        read_with("[forming_limit]\npoints = [[0, 0.25], [-0.1, 0.35]]\n").problem(),
        HasSubstr("own.toml:9: forming_limit.points: found [-0.1, 0.35] after [0, 0.25], allowed "
                  "minor strains that grow")
    );
}

TEST(LimitReader, RefusesAFormingPointWithItsStrainsExchanged) {
    const std::string problem =
        read_with("[forming_limit]\npoints = [[-0.1, 0.35], [0.3, 0.1]]\n").problem();
    EXPECT_THAT(problem, HasSubstr("forming_limit.points: found [0.3, 0.1]"));
    EXPECT_THAT(problem, HasSubstr("write the minor strain first"));
}

TEST(LimitReader, RefusesAFormingPointThatDoesNotThinTheSheet) {
    const std::string problem =
        read_with("[forming_limit]\npoints = [[-0.3, 0.3], [0, 0.25]]\n").problem();
    EXPECT_THAT(problem, HasSubstr("found [-0.3, 0.3], allowed points that thin the sheet"));
    EXPECT_TRUE(
        read_with("[forming_limit]\npoints = [[-0.23, 0.3], [0, 0.25]]\n").material.has_value()
    ) << "a strip of a drawing steel, r = 3.3";
}

} // namespace
} // namespace flangewright::sheet_library
