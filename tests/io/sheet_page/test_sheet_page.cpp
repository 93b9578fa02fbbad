#include "io/sheet_page/sheet_page.hpp"
#include "io/sheet_page/steps_part.hpp"
#include "solver/findings/verdict.hpp"
#include "tests/support/formed_flange.hpp"
#include "tests/support/made_up_lip.hpp"
#include "tests/support/made_up_passes.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

namespace flangewright::sheet_page {
namespace {

using testing::HasSubstr;
using testing::Not;

std::string
page_of(const process::JobResult& result, units::LengthUnit unit = units::LengthUnit::millimetre) {
    tables::RunFacts facts;
    facts.program_version = "9.8.7";
    facts.case_file = "cases/x/case.toml";
    facts.date = "2026-02-03";
    facts.unit = unit;
    return sheet_page(facts, support::made_up_job(), result, {});
}

TEST(SheetPage, NamesCaseVersionDateAndVerdict) {
    const std::string page = page_of(support::made_up_result());
    EXPECT_THAT(page, HasSubstr("Test frame segment &lt;A &amp; B&gt;"));
    EXPECT_THAT(page, Not(HasSubstr("<A & B>")));
    EXPECT_THAT(page, HasSubstr("flangewright 9.8.7 on 2026-02-03, from cases/x/case.toml"));
    EXPECT_THAT(page, HasSubstr("Holds: 61 % of the limit is used"));
    EXPECT_THAT(page, HasSubstr("<strong>typical values; your sheet may bear less</strong>."));
    EXPECT_THAT(page, HasSubstr("The free edge uses most of the stretch"));
}

TEST(SheetPage, SaysThatTheSheetsDataAreTheUsers) {
    job::Job job = support::made_up_job();
    EXPECT_THAT(
        sheet_page({}, job, support::made_up_result(), {}), Not(HasSubstr("your own data"))
    );
    job.sheet.material.own_file = "/home/shop/<own>.toml";
    EXPECT_THAT(
        sheet_page({}, job, support::made_up_result(), {}),
        HasSubstr("(your own data: /home/shop/&lt;own&gt;.toml)")
    );
}

TEST(SheetPage, NamesThePiecesOfABendLine) {
    job::Job job = support::made_up_job();
    job.blank.line = outline::BendLine::chain({{80, 0}, {100, 1.0 / 200}, {30, -1.0 / 150}});
    const std::string page = sheet_page({}, job, support::made_up_result(), {});
    EXPECT_THAT(
        page,
        HasSubstr("line 80.00 mm, concave 200.00 mm through 28.6 deg, convex 150.00 mm through "
                  "11.5 deg; 210.00 mm long")
    );
    EXPECT_THAT(page, HasSubstr("<td>several</td>"));
    job.blank.line = outline::BendLine::chain(std::vector<outline::Piece>(20, {9, 1.0 / 200}));
    EXPECT_THAT(sheet_page({}, job, support::made_up_result(), {}), HasSubstr("concave arc"));
    std::vector<outline::Piece> many(20, {9, 1.0 / 200});
    many.push_back({9, -1.0 / 150});
    job.blank.line = outline::BendLine::chain(many);
    EXPECT_THAT(
        sheet_page({}, job, support::made_up_result(), {}),
        HasSubstr("curve of 21 pieces, concave to 200.00 mm, convex to 150.00 mm")
    );
}

TEST(SheetPage, NamesTheKinksThatWereRounded) {
    tables::RunFacts facts;
    const job::Job job = support::made_up_job();
    EXPECT_THAT(sheet_page(facts, job, support::made_up_result(), {}), Not(HasSubstr("Rounded")));
    facts.rounded_kinks = {"kink <1>: radius 5 mm", "kink 2: radius 5 mm"};
    const std::string page = sheet_page(facts, job, support::made_up_result(), {});
    EXPECT_THAT(page, HasSubstr("Rounded</th><td>kink &lt;1&gt;: radius 5 mm</td>"));
    EXPECT_THAT(page, HasSubstr("Rounded</th><td>kink 2: radius 5 mm</td>"));
}

TEST(SheetPage, ReachesOutForNothing) {
    const std::string page = page_of(support::made_up_result());
    EXPECT_THAT(page, Not(HasSubstr("http")));
    EXPECT_THAT(page, Not(HasSubstr("<script")));
    EXPECT_THAT(page, Not(HasSubstr("<link")));
}

TEST(SheetPage, ShowsTheUsersUnitWithMmBeside) {
    const process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result, units::LengthUnit::inch), HasSubstr("<td>0.031 in (0.80 mm)</td>"));
    EXPECT_THAT(page_of(result), HasSubstr("<td>0.80 mm</td>"));
}

TEST(SheetPage, PutsTheHandCalculationBesideAndSaysWhereItDiffers) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), HasSubstr("<td>3.4 deg</td><td>1.6 deg</td>"));
    EXPECT_THAT(page_of(result), HasSubstr("Where computed and by hand are far apart:"));
    EXPECT_THAT(page_of(result), HasSubstr("Springback: computed 3.4 deg, by hand 1.6 deg."));
    result.disagreements.clear();
    EXPECT_THAT(page_of(result), Not(HasSubstr("far apart")));
}

// Bend tables speak of radii: 0.25 is a radius of 1.5 t, 1 a sharp bend.
TEST(SheetPage, GivesTheBendsLimitAsARadius) {
    process::JobResult result = support::made_up_result();
    result.verdict.limits[1].allowed = 0.25 * findings::uneven_bend;
    EXPECT_THAT(page_of(result), HasSubstr("<td>26.8 %<br><small>radius 1.5 t</small></td>"));
    EXPECT_THAT(page_of(result), HasSubstr("Allowed figure: published. Source: invented"));
    result.verdict.limits[1].allowed = findings::uneven_bend;
    EXPECT_THAT(
        page_of(result), HasSubstr("<td>sharp bend<br><small>table: radius 0 t</small></td>")
    );
    result.verdict.limits[1].allowed.reset();
    result.verdict.limits[1].share.reset();
    result.verdict.limits[1].grade = material::DataGrade::unknown;
    result.verdict.limits[1].source.clear();
    EXPECT_THAT(page_of(result), HasSubstr("<td>not known</td><td>not known</td>"));
    EXPECT_THAT(page_of(result), HasSubstr("Allowed figure: not known. Source: none."));
    result.verdict.limits[1].beside = "With the swift curve 40 % is used";
    EXPECT_THAT(page_of(result), HasSubstr("Source: none. With the swift curve 40 % is used.<"));
}

TEST(SheetPage, SaysHowFarTheWebLiftCanBeTrusted) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), HasSubstr("a quick mesh may miss it"));
    result.mesh_error.emplace().web_lift = 0.01;
    EXPECT_THAT(page_of(result), Not(HasSubstr("a quick mesh may miss it")));
    EXPECT_THAT(page_of(result), HasSubstr("The web does not sit flat: it lifts by 0.75 mm"));
    result.mesh_error->web_lift = 0.6;
    EXPECT_THAT(page_of(result), HasSubstr("Whether the web sits flat can"));
}

TEST(SheetPage, ShowsTheLipHeldReleasedAndByHand) {
    EXPECT_THAT(page_of(support::made_up_result()), Not(HasSubstr("The return lip")));
    const std::string page =
        sheet_page({}, support::made_up_lip_job(), support::made_up_lip_result(), {});
    EXPECT_THAT(page, HasSubstr("<h2>The return lip</h2>"));
    EXPECT_THAT(page, HasSubstr("<td>89.0 deg</td><td>86.0 deg</td>"));
    EXPECT_THAT(page, HasSubstr("<td>3.0 deg</td><td>2.5 deg</td>"));
    EXPECT_THAT(page, HasSubstr("<td>10.0 %</td><td>10.0 %</td><td>12.0 %</td>"));
    EXPECT_THAT(page, HasSubstr("<td>8.10 mm</td><td>8.10 mm</td>"));
    EXPECT_THAT(page, HasSubstr("Since the anneal it takes 4.0 %"));
    EXPECT_THAT(page, HasSubstr("under the web")); // in the case
    EXPECT_THAT(page, HasSubstr("Flat, lip's bend tangent to its net edge"));
}

TEST(SheetPage, ShowsBackStressesInTheUsersUnit) {
    job::Job job = support::made_up_job();
    const process::JobResult result = support::made_up_result();
    EXPECT_THAT(sheet_page({}, job, result, {}), HasSubstr("none (isotropic hardening)"));
    job.sheet.material.back_stresses = {{9000, 150}, {800, 0}};
    job.sheet.material.back_stress_grade = material::DataGrade::coupon;
    job.sheet.material.back_stress_source = "strip <4>";
    EXPECT_THAT(
        sheet_page({}, job, result, {}),
        HasSubstr("stiffness 9000 MPa, recall rate 150, grows to 60 MPa; stiffness 800 MPa, recall "
                  "rate 0, grows without end (coupon: strip &lt;4&gt;)")
    );
    tables::RunFacts facts;
    facts.unit = units::LengthUnit::inch;
    EXPECT_THAT(sheet_page(facts, job, result, {}), HasSubstr("grows to 8.7 ksi"));
}

TEST(SheetPage, SpeaksOfCutEndsOnlyWhereThereAreSome) {
    job::Job job = support::made_up_job();
    const process::JobResult result = support::made_up_result();
    EXPECT_THAT(sheet_page({}, job, result, {}), HasSubstr("Springback, mean away from cut ends<"));
    job.blank.start = job.blank.end = job::EndKind::continues;
    EXPECT_THAT(sheet_page({}, job, result, {}), HasSubstr("Springback, mean<"));
}

TEST(SheetPage, PutsTheMeshErrorBehindItsFigures) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("&plusmn;")));
    result.mesh_error = {
        .springback = 0.001, .flange_angle = 0.011, .edge_strain = 0.0031, .thinning = 0.012};
    const std::string page = page_of(result);
    EXPECT_THAT(page, HasSubstr(" deg &plusmn; 0.1<")); // 0.06 deg, rounded up
    EXPECT_THAT(page, HasSubstr(" % &plusmn; 0.4<"));
    EXPECT_THAT(page, HasSubstr(" % &plusmn; 1.2<"));
    EXPECT_THAT(
        page, testing::ContainsRegex(" deg</td><td>[0-9.]+ deg &plusmn; 0.7<")
    ); // released only
    EXPECT_THAT(page, HasSubstr("what the choice of mesh leaves open"));
    EXPECT_THAT(page, Not(HasSubstr("give or take")));
    result.mesh_error->web_lift = 0.07;
    EXPECT_THAT(page_of(result), HasSubstr(" mm &plusmn; 0.07 mm<"));
    EXPECT_THAT(page_of(result), HasSubstr("for the model)"));
}

TEST(SheetPage, TellsWhatScatterMoves) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("may differ by")));
    result.scatter = process::ScatterBand{};
    result.scatter->total.springback = 0.01;
    result.scatter->total.web_lift = 0.05;
    result.scatter->parts = {
        {"yield stress", "10 %", {.springback = 0.01, .edge_strain = -0.002, .web_lift = -0.05}}};
    const std::string page = page_of(result);
    EXPECT_THAT(page, HasSubstr("Yield stress, by 10 %"));
    EXPECT_THAT(page, HasSubstr("<td>+0.57</td><td>-0.20</td><td>-0.05 mm</td>"));
    EXPECT_THAT(page, HasSubstr("deg &plusmn; 0.6<"));
    EXPECT_THAT(page, HasSubstr(" mm &plusmn; 0.05 mm<"));
    EXPECT_THAT(page, HasSubstr("It is no bound"));
}

TEST(SheetPage, SaysWhatWouldHelpBestFirst) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("What would help")));
    result.remedies = process::Remedies{0.95, 0.9, {}, 0};
    result.remedies->helpful = {
        {process::RemedyKind::less_depth, 20, 17, {}, 0.72, findings::VerdictWord::holds},
        {process::RemedyKind::larger_nose, 3, 4.5, {}, 0.9, findings::VerdictWord::close}};
    const std::string page = page_of(result);
    EXPECT_THAT(page, HasSubstr("<ol>\n<li>Flange about 3.00 mm less deep"));
    EXPECT_THAT(page, HasSubstr("the wall moves): 90 % of the limit used, close.</li>"));
    EXPECT_LT(page.find("Will it split?"), page.find("What would help"));
    EXPECT_LT(page.find("What would help"), page.find("The figures"));
}

TEST(SheetPage, SaysHowLikelyASplitIsAndWhatThatIsNot) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("How likely to split")));
    result.chance = findings::Chance{0.07, 0.08, "free edge", 0.85, 0.1, ""};
    EXPECT_THAT(page_of(result), HasSubstr("<p>Of 100 such parts about 7 would split, if sheet"));
    EXPECT_THAT(page_of(result), HasSubstr("This is no safety factor and no approval"));
    result.chance = findings::Chance{};
    result.chance->why_not = "What the <bend> bears is not known.";
    const std::string page = page_of(result);
    EXPECT_THAT(page, HasSubstr("No chance of splitting is given. What the &lt;bend&gt; bears"));
    EXPECT_THAT(page, Not(HasSubstr("safety factor")));
}

TEST(SheetPage, SaysHowToWorkTheEdgeWhereTheWebLifts) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("Which way to work it")));
    result.web_cure = process::WebCure{
        .zones = {{120, 180, 0.006, 0.009}}, .lift_before = 0.8, .lift_after = 0.05};
    const std::string page = page_of(result);
    EXPECT_THAT(
        page,
        HasSubstr("<li>Stretch the flange edge about 0.60 % between stations 120 and 180 mm.</li>")
    );
    EXPECT_THAT(page, HasSubstr("brings the web lift from 0.80 mm to 0.05 mm."));
    EXPECT_THAT(page, HasSubstr("not approved data: drawing and approved data come first"));
    EXPECT_LT(page.find("Web lift"), page.find("Which way to work it"));
    EXPECT_THAT(page, Not(HasSubstr("The error bar of the lift")));
    result.mesh_error.emplace().web_lift = 0.7;
    EXPECT_THAT(page_of(result), HasSubstr("The error bar of the lift reaches below"));
    result.web_cure->zones.clear();
    EXPECT_THAT(page_of(result), HasSubstr("no small stretch or shrink"));
}

// Four columns on paper; on a phone each figure's name stands above its three figures. What breaks
// words apart to fill narrow columns must not come back.
TEST(SheetPage, KeepsWordsWholeInNarrowColumns) {
    const std::string page = page_of(support::made_up_result());
    EXPECT_THAT(page, HasSubstr("@media screen and (max-width: 600px)"));
    EXPECT_THAT(
        page,
        HasSubstr("padding: 0.75mm 3mm 0.75mm 0;\n  border-bottom: 0.5pt solid "
                  "#c4c4c4; overflow-wrap: break-word;")
    );
    EXPECT_THAT(page, HasSubstr(".numbers { table-layout: fixed; }"));
}

TEST(SheetPage, DefersToApprovedDataAndWarns) {
    const std::string page = page_of(support::made_up_result());
    EXPECT_THAT(page, HasSubstr("Not approved data."));
    EXPECT_THAT(page, HasSubstr("not of strength or airworthiness"));
    EXPECT_THAT(page, HasSubstr("<h2>Cautions</h2>"));
}

TEST(SheetPage, ShowsNoNumberThatIsNone) {
    process::JobResult result = support::made_up_result();
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    result.steps[0].findings.flange_angle_middle.mean = none;
    result.steps[1].findings.web_lift = none;
    result.steps[1].findings.plan_radius = std::numeric_limits<double>::infinity();
    result.verdict.share_used.reset();
    result.verdict.word = findings::VerdictWord::unknown;
    const std::string page = page_of(result);
    EXPECT_THAT(page, Not(testing::ContainsRegex("[> ](-?nan|-?inf)[ <]")));
    EXPECT_THAT(page, HasSubstr("<td>straight</td>"));
    EXPECT_THAT(page, HasSubstr("not known"));
    EXPECT_THAT(page, HasSubstr("<p class=\"word\">Unknown</p>"));
}

TEST(SheetPage, SaysThatARunStoppedShort) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("did not reach its end")));
    result.reason = process::StopReason::no_equilibrium;
    result.steps.pop_back();
    result.steps[0].report.reason = process::StopReason::no_equilibrium;
    result.steps[0].report.angle_reached = 1;
    EXPECT_THAT(
        page_of(result),
        HasSubstr("no equilibrium was found in bend-down, at a flange angle of 57.3 deg")
    );
}

TEST(SheetPage, CarriesPicturesInside) {
    const std::string page = sheet_page(
        {}, support::made_up_job(), support::made_up_result(), {{"Section <half way>", "foobar"}}
    );
    EXPECT_THAT(
        page,
        HasSubstr("<img alt=\"Section &lt;half way&gt;\" src=\"data:image/png;base64,Zm9vYmFy\">")
    );
}

process::StepResult loose_step(job::StepKind kind, double angle, double before) {
    process::StepResult step = support::made_up_result().steps[1];
    step.kind = kind;
    step.findings.flange_angle_middle.mean = angle;
    step.angle_before = before;
    return step;
}

TEST(SheetPage, ShowsWhatEachStepAfterTheReleaseChanges) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("After the release")));
    result.steps.push_back(loose_step(job::StepKind::trim, 1.5, 1.49));
    result.steps.push_back(loose_step(job::StepKind::anneal, 1.48, 1.5));
    const std::string page = page_of(result);
    EXPECT_THAT(page, HasSubstr("After the release"));
    EXPECT_THAT(
        page,
        HasSubstr("<th scope=\"row\">trimmed to the net edge</th><td>85.9 deg</td><td>+0.57 deg")
    );
    EXPECT_THAT(page, HasSubstr("<th scope=\"row\">annealed</th><td>84.8 deg</td><td>-1.15 deg"));
}

TEST(SheetPage, SetsADriveInPassesBesideTheEvenOne) {
    process::JobResult result = support::made_up_result();
    EXPECT_THAT(page_of(result), Not(HasSubstr("The drive in passes")));
    result.passes = support::made_up_passes();
    job::Job job = support::made_up_job();
    job.drive.order = job::DriveOrder::ends_first;
    job.drive.front = 55;
    job.drive.passes = {0.7, 1.5707963267948966};
    const std::string page = sheet_page({}, job, result, {});
    EXPECT_THAT(page, HasSubstr("The flange is driven from both ends to the middle, in 2 passes."));
    EXPECT_THAT(page, HasSubstr("<th>as driven</th><th>driven evenly</th>"));
    EXPECT_THAT(
        page,
        HasSubstr("<th scope=\"row\">Pass 2, to 90.0 deg: edge stretch</th><td>10.5 % at 40.00 mm"
                  "</td><td>5.1 % at 40.00 mm</td>")
    );
    EXPECT_THAT(page, HasSubstr("the verdict weighs the end of the step"));
    EXPECT_THAT(
        page,
        HasSubstr("<td>from both ends to the middle, in 2 passes to 40.1, 90.0 deg, front 55.00 mm "
                  "long</td>")
    );
    result.passes->even.reset();
    EXPECT_THAT(sheet_page({}, job, result, {}), Not(HasSubstr("driven evenly")));
}

TEST(SheetPage, RemindsOfHeatFiguresWithTheirStanding) {
    job::Job job = support::made_up_job();
    EXPECT_EQ(heat_part(job), "");
    job.sheet.material.name = "2024-O clad";
    job.sheet.thickness = 0.8; // 0.0315 in
    job.steps = {job::StepKind::bend_down, job::StepKind::release, job::StepKind::heat_treat};
    const std::string treated = heat_part(job);
    EXPECT_THAT(treated, HasSubstr("<td>15 min in salt, 25 min in air</td><td>from memory: "));
    EXPECT_THAT(treated, HasSubstr("910 to 930 F"));
    EXPECT_THAT(treated, Not(HasSubstr("960 to 1010 F"))); // of 6061
    EXPECT_THAT(treated, Not(HasSubstr("Anneal")));
    job.steps.back() = job::StepKind::anneal;
    EXPECT_THAT(heat_part(job), HasSubstr("never solution treated"));
    EXPECT_THAT(heat_part(job), Not(HasSubstr("Soak")));
}

} // namespace
} // namespace flangewright::sheet_page
