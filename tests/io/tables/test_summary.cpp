#include "io/tables/summary.hpp"
#include "io/units/angle.hpp"
#include "tests/support/formed_flange.hpp"
#include "tests/support/made_up_lip.hpp"
#include "tests/support/made_up_passes.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

namespace flangewright::tables {
namespace {

using testing::HasSubstr;
using testing::Not;

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

RunFacts facts() {
    RunFacts some;
    some.program_version = "9.8.7";
    some.case_file = "cases/x/case.toml";
    some.date = "2026-02-03";
    some.output_warnings = {"Pictures are left out, as asked."};
    return some;
}

std::string summary(const process::JobResult& result) {
    return summary_json(facts(), support::made_up_job(), result);
}

/// The text between a key and the end of its line, at its first place after `after`.
std::string
value_of(const std::string& text, const std::string& key, const std::string& after = "") {
    const std::size_t from = text.find(after);
    const std::size_t place = text.find(fmt::format("\"{}\": ", key), from);
    if (from == std::string::npos || place == std::string::npos) {
        return "no such key";
    }
    const std::size_t begin = place + key.size() + 4;
    const std::size_t end = text.find_first_of(",\n", begin);
    return text.substr(begin, end - begin);
}

TEST(Summary, SaysWhoseDataTheSheetsAre) {
    job::Job job = support::made_up_job();
    job.sheet.material.name = "2024-O";
    const process::JobResult result = support::made_up_result();
    EXPECT_EQ(value_of(summary_json(facts(), job, result), "own_file", "\"sheet\""), "null");
    job.sheet.material.own_file = "/home/shop/own.toml";
    const std::string own = summary_json(facts(), job, result);
    EXPECT_EQ(value_of(own, "own_file", "\"sheet\""), "\"/home/shop/own.toml\"");
    EXPECT_EQ(value_of(own, "material", "\"sheet\""), "\"2024-O\"");
}

TEST(Summary, CarriesTheMarkOfTheRunWhereItIsKnown) {
    RunFacts marked = facts();
    marked.run_mark = "0123456789abcdef";
    const process::JobResult result = support::made_up_result();
    EXPECT_EQ(value_of(summary(result), "run_mark"), "null");
    EXPECT_EQ(
        value_of(summary_json(marked, support::made_up_job(), result), "run_mark"),
        "\"0123456789abcdef\""
    );
}

TEST(Summary, HasTheKeysThatProgramsRelyOn) {
    const std::string text = summary(support::made_up_result());
    for (const char* key :
         {"schema",
          "program",
          "version",
          "case",
          "title",
          "mesh",
          "nodes",
          "elements",
          "solve",
          "degrees_of_freedom",
          "steps",
          "iterations",
          "cutbacks",
          "seconds",
          "seconds_in",
          "factorise",
          "contact",
          "output",
          "refactor_seconds_bare",
          "threads",
          "name",
          "flange_angle_deg",
          "min",
          "mean",
          "max",
          "flange_angle_deg_middle",
          "edge_strain_log",
          "edge_stretch_percent",
          "thinning_percent",
          "web_lift_mm",
          "penetration_mm",
          "springback_deg",
          "springback_deg_middle",
          "plan_radius_mm",
          "before",
          "after",
          "hand_calculation",
          "drive_in_passes",
          "disagreements",
          "warnings",
          "verdict",
          "word",
          "share_used",
          "because",
          "data_grade",
          "limits"}) {
        EXPECT_THAT(text, HasSubstr(fmt::format("\"{}\":", key)));
    }
    EXPECT_EQ(value_of(text, "schema"), "1");
    EXPECT_EQ(value_of(text, "version"), "\"9.8.7\"");
}

TEST(Summary, RepeatsTheFiguresInTheUnitsOfTheKeys) {
    const process::JobResult result = support::made_up_result();
    const findings::PartFindings& released = result.steps.back().findings;
    const std::string text = summary(result);
    EXPECT_EQ(value_of(text, "elements", "\"mesh\""), "3360");
    EXPECT_EQ(value_of(text, "max", "\"web_lift_mm\""), "0.0");
    EXPECT_EQ(value_of(text, "after", "\"plan_radius_mm\""), "250.0");
    constexpr double digits_written = 1e-12;
    const std::string name = "\"name\": \"release\"";
    EXPECT_NEAR(
        std::stod(value_of(text, "max", name)),
        units::degrees(released.flange_angle.most),
        digits_written
    );
    EXPECT_NEAR(
        std::stod(value_of(text, "min", "\"springback_deg\"")),
        units::degrees(released.springback->least),
        digits_written
    );
}

TEST(Summary, GivesSpringbackOnlyAfterRelease) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"springback_deg_middle\""));
    result.steps.pop_back();
    EXPECT_THAT(summary(result), Not(HasSubstr("\"springback_deg_middle\"")));
}

TEST(Summary, GivesTheMeshErrorWhenKnown) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"mesh_error\": null"));
    result.mesh_error = {.springback = 0.01, .edge_strain = 0.003, .thinning = 0.02};
    const std::string text = summary(result);
    EXPECT_THAT(text, HasSubstr("\"springback_deg\": 0.57"));
    EXPECT_THAT(text, HasSubstr("\"edge_strain_log\": 0.003"));
    EXPECT_THAT(text, HasSubstr("\"thinning_percent\": 2.0"));
    EXPECT_EQ(value_of(text, "web_lift_mm", "\"mesh_error\""), "null");
    EXPECT_THAT(text, HasSubstr("\"web_sits\": null"));
    result.mesh_error->web_lift = 5;
    EXPECT_EQ(value_of(summary(result), "web_lift_mm", "\"mesh_error\""), "5.0");
    EXPECT_THAT(summary(result), HasSubstr("\"web_sits\": \"can't tell\""));
}

TEST(Summary, GivesEachPassAndTheEdgeOnTheWay) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"drive_in_passes\": null"));
    result.passes = support::made_up_passes();
    job::Job job = support::made_up_job();
    job.drive.order = job::DriveOrder::ends_first;
    job.drive.front = 55;
    const std::string text = summary_json(facts(), job, result);
    const std::string here = "\"drive_in_passes\"";
    EXPECT_EQ(value_of(text, "order", here), "\"ends first\"");
    EXPECT_EQ(value_of(text, "front_mm", here), "55.0");
    EXPECT_NEAR(std::stod(value_of(text, "angle_wanted_deg", here)), units::degrees(0.7), 1e-12);
    EXPECT_NEAR(std::stod(value_of(text, "mean", here)), units::degrees(0.72), 1e-12);
    EXPECT_NEAR(std::stod(value_of(text, "max", "\"stretched_on_the_way_log\"")), 0.11, 1e-12);
    EXPECT_EQ(value_of(text, "max", "\"shrunk_on_the_way_log\""), "-0.02");
    EXPECT_EQ(value_of(text, "shrunk_log", "\"edge_on_the_way\""), "-0.01");
    EXPECT_NEAR(std::stod(value_of(text.substr(text.find("\"even\": {")), "max")), 0.02, 1e-12);
    EXPECT_EQ(value_of(text, "seconds_even", here), "12.5");
    result.passes->even.reset();
    EXPECT_EQ(value_of(summary(result), "even", here), "null");
}

TEST(Summary, GivesTheCureOfTheWebWhereThereIsOne) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"web_cure\": null"));
    result.web_cure = process::WebCure{
        .zones = {{10, 30, 0.005, 0.0075}},
        .lift_before = 0.8,
        .lift_after = 0.1,
        .angle_change = -0.01,
        .edge_strain_added = 0.003};
    const std::string text = summary(result);
    EXPECT_EQ(value_of(text, "from_mm", "\"web_cure\""), "10.0");
    EXPECT_EQ(value_of(text, "to_mm", "\"web_cure\""), "30.0");
    EXPECT_EQ(value_of(text, "stretch_percent", "\"web_cure\""), "0.5");
    EXPECT_EQ(value_of(text, "put_in_percent", "\"web_cure\""), "0.75");
    EXPECT_EQ(value_of(text, "before", "\"web_cure\""), "0.8");
    EXPECT_EQ(value_of(text, "after", "\"web_cure\""), "0.1");
    EXPECT_EQ(value_of(text, "brings_it_flat"), "true");
    EXPECT_EQ(value_of(text, "max", "\"edge_strain_added_log\""), "0.003");
    EXPECT_THAT(text, HasSubstr("\"flange_angle_change_deg\": -0.57"));
}

TEST(Summary, GivesWhatWouldHelpWhereItWasLookedFor) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"what_would_help\": null"));
    result.remedies = process::Remedies{0.95, 0.9, {}, 0};
    EXPECT_THAT(summary(result), HasSubstr("\"what_would_help\": []"));
    result.remedies->helpful = {
        {process::RemedyKind::better_edge,
         0,
         0,
         material::EdgeFinish::filed,
         0.6,
         findings::VerdictWord::holds}};
    std::string text = summary(result);
    EXPECT_EQ(value_of(text, "what", "\"what_would_help\""), "\"better_edge\"");
    EXPECT_EQ(value_of(text, "edge_finish", "\"what_would_help\""), "\"filed\"");
    EXPECT_EQ(value_of(text, "to_mm", "\"what_would_help\""), "null");
    result.remedies->helpful = {
        {process::RemedyKind::larger_nose, 3, 4.5, {}, 0.75, findings::VerdictWord::holds}};
    text = summary(result);
    EXPECT_EQ(value_of(text, "from_mm", "\"what_would_help\""), "3.0");
    EXPECT_EQ(value_of(text, "to_mm", "\"what_would_help\""), "4.5");
    EXPECT_EQ(value_of(text, "to_deg", "\"what_would_help\""), "null");
    EXPECT_EQ(value_of(text, "share", "\"what_would_help\""), "0.75");
    EXPECT_THAT(text, HasSubstr("\"word\": \"holds\""));
}

TEST(Summary, GivesTheChanceOfSplittingOrWhyNot) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), HasSubstr("\"chance_of_splitting\": null"));
    result.chance = findings::Chance{0.0625, 0.125, "free edge", 0.75, 0.25, ""};
    std::string text = summary(result);
    EXPECT_EQ(value_of(text, "first_order", "\"chance_of_splitting\""), "0.0625");
    EXPECT_EQ(value_of(text, "by_draws", "\"chance_of_splitting\""), "0.125");
    EXPECT_EQ(value_of(text, "place", "\"chance_of_splitting\""), "\"free edge\"");
    EXPECT_EQ(value_of(text, "share_deviation", "\"chance_of_splitting\""), "0.25");
    result.chance = findings::Chance{};
    result.chance->why_not = "Not known.";
    text = summary(result);
    EXPECT_EQ(value_of(text, "first_order", "\"chance_of_splitting\""), "null");
    EXPECT_EQ(value_of(text, "why_not", "\"chance_of_splitting\""), "\"Not known.\"");
}

TEST(Summary, GivesTheLipAndWhetherItCanFollow) {
    EXPECT_THAT(summary(support::made_up_result()), HasSubstr("\"lip_advice\": null"));
    EXPECT_THAT(summary(support::made_up_result()), HasSubstr("\"lip\": null"));
    const std::string text =
        summary_json(facts(), support::made_up_lip_job(), support::made_up_lip_result());
    const std::string here = "\"lip\": {\n        \"angle_deg\"";
    EXPECT_NEAR(std::stod(value_of(text, "mean", here)), 89, 1e-9);
    EXPECT_EQ(value_of(text.substr(text.find(here)), "mean", "\"depth_mm\""), "8.1");
    EXPECT_NEAR(
        std::stod(value_of(text.substr(text.find(here)), "max", "\"bend_strain_used_log\"")),
        std::log(1.15),
        1e-9
    );
    EXPECT_NEAR(
        std::stod(value_of(text, "edge_stretch_percent", "\"block_angle_for_wanted_deg\"")),
        12,
        1e-9
    );
    EXPECT_THAT(text, HasSubstr("\"lip_advice\": \""));
}

TEST(Summary, WritesNullForWhatIsNoNumber) {
    process::JobResult result = support::made_up_result();
    result.steps.front().findings.plan_radius = infinity;
    result.steps.front().findings.web_lift = not_a_number;
    result.by_hand.springback = not_a_number;
    result.figures.seconds_bare_refactor = -infinity;
    result.verdict.share_used.reset();
    const std::string text = summary(result);
    EXPECT_EQ(value_of(text, "after", "\"plan_radius_mm\""), "null");
    EXPECT_EQ(value_of(text, "max", "\"web_lift_mm\""), "null");
    EXPECT_EQ(value_of(text, "springback_deg", "\"hand_calculation\""), "null");
    EXPECT_EQ(value_of(text, "refactor_seconds_bare"), "null");
    EXPECT_EQ(value_of(text, "share_used"), "null");
    EXPECT_THAT(text, Not(testing::ContainsRegex(": -?(nan|inf)")));
}

TEST(Summary, NamesThePiecesOfTheBendLine) {
    job::Job job = support::made_up_job();
    job.blank.line = outline::BendLine::chain({{80, 0}, {100, 1.0 / 200}, {30, -1.0 / 150}});
    const std::string text = summary_json(facts(), job, support::made_up_result());
    EXPECT_EQ(value_of(text, "curve", "\"pieces\""), "\"line\"");
    EXPECT_EQ(value_of(text, "radius_mm", "\"line\""), "null");
    EXPECT_EQ(value_of(text, "station_mm", "\"concave\""), "80.0");
    EXPECT_EQ(value_of(text, "radius_mm", "\"concave\""), "200.0");
    EXPECT_EQ(value_of(text, "length_mm", "\"convex\""), "30.0");
    EXPECT_EQ(value_of(text, "station_mm", "\"convex\""), "180.0");
    EXPECT_EQ(value_of(text, "before", "\"plan_radius_mm\""), "null"); // no one radius
    EXPECT_EQ(value_of(text, "edge_stretch_percent_by_hand", "\"line\""), "0.0");
    EXPECT_EQ(value_of(text, "edge_stretch_percent_by_hand", "\"convex\"").front(), '-');
}

TEST(Summary, BearsATitleThatIsNoValidText) {
    job::Job job = support::made_up_job();
    job.title = "broken \xff\xfe title \" \n";
    const std::string text = summary_json(facts(), job, support::made_up_result());
    EXPECT_THAT(text, HasSubstr("broken "));
    EXPECT_THAT(text, HasSubstr(" title \\\" \\n"));
}

TEST(Summary, SaysWhyAnUnfinishedRunEnded) {
    process::JobResult result = support::made_up_result();
    result.reason = process::StopReason::no_equilibrium;
    EXPECT_EQ(value_of(summary(result), "reason", "\"solve\""), "\"no equilibrium\"");
    result.steps.clear();
    EXPECT_THAT(summary(result), HasSubstr("\"steps\": []"));
}

TEST(Summary, ListsTheWarningsOfRunAndOutput) {
    process::JobResult result = support::made_up_result();
    result.warnings = {"The friction is large."};
    EXPECT_THAT(
        summary(result),
        HasSubstr("\"The friction is large.\",\n    \"Pictures are left out, as asked.\"")
    );
}

TEST(Summary, TellsWhereTheInteriorIsNearestToANeck) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(summary(result), Not(HasSubstr("interior_neck")));
    result.steps[0].findings.neck =
        findings::NeckFindings{.share = 0.25, .station = 30, .distance = 8, .major_strain = 0.0625};
    const std::string text = summary(result);
    EXPECT_EQ(value_of(text, "share_used", "interior_neck"), "0.25");
    EXPECT_EQ(value_of(text, "major_strain_used_log", "interior_neck"), "0.0625");
    EXPECT_EQ(value_of(text, "distance_mm", "interior_neck"), "8.0");
    EXPECT_EQ(value_of(text, "station_mm", "interior_neck"), "30.0");
    EXPECT_THAT(text, Not(HasSubstr("beside")));
    result.steps[0].findings.neck->other_share = 0.125;
    result.steps[0].findings.neck->other_law = "swift";
    const std::string both = summary(result);
    EXPECT_EQ(value_of(both, "share_used", "beside"), "0.125");
    EXPECT_EQ(value_of(both, "law", "beside"), "\"swift\"");
}

TEST(Summary, TellsTheRValueTheHandCalculationStandsOn) {
    process::JobResult result = support::made_up_result();
    EXPECT_EQ(value_of(summary(result), "edge_r_value", "hand_calculation"), "null");
    result.by_hand.edge_r_value = 0.625;
    EXPECT_EQ(value_of(summary(result), "edge_r_value", "hand_calculation"), "0.625");
}

} // namespace
} // namespace flangewright::tables
