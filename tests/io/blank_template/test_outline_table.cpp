#include "io/blank_template/outline_table.hpp"
#include "tests/io/blank_template/template_parts.hpp"

#include <gmock/gmock.h>

namespace flangewright::blank_template {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

TEST(OutlineTable, HasWidthsAndDepthsAtEachStationFormed) {
    const std::string text =
        outline_table(full_request(), {{0, 18, 18.25}, {40, 18, 17.9}, {80, 18, 18}});
    EXPECT_EQ(
        text,
        "station_mm,net_width_mm,cut_width_mm,wanted_depth_mm,formed_depth_mm,miss_mm\n"
        "0.000,18.000,21.000,18.000,18.250,0.250\n"
        "40.000,18.500,21.500,18.000,17.900,-0.100\n"
        "80.000,19.000,22.000,18.000,18.000,0.000\n"
    );
}

TEST(OutlineTable, HasLipAndFlangeWhereThereIsALip) {
    const std::string text = outline_table(full_request(), {{0, 8, 8.25}}, {{0, 18, 17.9}});
    EXPECT_EQ(
        text,
        "station_mm,net_width_mm,cut_width_mm,wanted_lip_depth_mm,formed_lip_depth_mm,miss_mm,"
        "wanted_flange_depth_mm,formed_flange_depth_mm,flange_miss_mm\n"
        "0.000,18.000,21.000,8.000,8.250,0.250,18.000,17.900,-0.100\n"
    );
}

TEST(OutlineTable, HasWidthsAloneWhereNothingWasFormed) {
    TemplateRequest request = full_request();
    request.unit = units::LengthUnit::inch;
    request.net = outline::Profile({{0, 25.4}});
    EXPECT_EQ(
        outline_table(request, {}), "station_in,net_width_in,cut_width_in\n0.0000,1.0000,1.1181\n"
    );
}

TEST(FlatWidthLines, StateTheWidthAsCut) {
    TemplateRequest request = full_request();
    EXPECT_THAT(*flat_width_lines(request), HasSubstr("[\"80.0000 mm\", \"22.0000 mm\"]"));
    request.net = outline::Profile({{0, 18}});
    EXPECT_THAT(*flat_width_lines(request), HasSubstr("flat_width = \"21.0000 mm\"\n"));
    std::vector<outline::ProfilePoint> many;
    for (int i = 0; i <= 100; ++i) {
        many.push_back({0.8 * i, 18});
    }
    request.net = outline::Profile(many);
    EXPECT_FALSE(flat_width_lines(request));
}

} // namespace
} // namespace flangewright::blank_template
