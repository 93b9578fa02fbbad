#include "io/command_line/arguments.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;
using Words = std::vector<std::string>;

template <typename T>
T good(const Words& words) {
    const auto arguments = read_arguments(words);
    EXPECT_TRUE(arguments.has_value()) << (arguments ? "" : arguments.error().text);
    return arguments && std::holds_alternative<T>(*arguments) ? std::get<T>(*arguments) : T{};
}

TEST(Arguments, OfLogAreRead) {
    const auto log = good<LogArguments>(
        {"log",
         "a.toml",
         "--measured",
         "m.csv",
         "--out",
         "here",
         "--lot",
         "A 1",
         "--store-edge-limit"}
    );
    EXPECT_EQ(log.case_file, "a.toml");
    EXPECT_EQ(log.measured_file, "m.csv");
    EXPECT_EQ(log.out, "here");
    EXPECT_EQ(log.lot, "A 1");
    EXPECT_TRUE(log.stores_limit);
    EXPECT_FALSE(log.template_file);
}

TEST(Arguments, OfRunAreRead) {
    const auto run =
        good<RunArguments>({"run", "a.toml", "--out", "here", "--threads", "2", "--no-pictures"});
    EXPECT_EQ(run.case_file, "a.toml");
    EXPECT_EQ(run.out, "here");
    EXPECT_EQ(run.n_threads, 2);
    EXPECT_FALSE(run.with_pictures);
    EXPECT_FALSE(run.resumes);
    EXPECT_TRUE(good<RunArguments>({"run", "a.toml", "--resume"}).resumes);
}

TEST(Arguments, OfRunHaveDefaults) {
    const auto run = good<RunArguments>({"run", "a.toml"});
    EXPECT_FALSE(run.out.has_value());
    EXPECT_EQ(run.n_threads, 0);
    EXPECT_TRUE(run.with_pictures);
    EXPECT_TRUE(run.with_even_drive);
    EXPECT_FALSE(good<RunArguments>({"run", "a.toml", "--no-even-drive"}).with_even_drive);
    EXPECT_TRUE(run.with_remedies);
    EXPECT_FALSE(good<RunArguments>({"run", "a.toml", "--no-remedies"}).with_remedies);
}

TEST(Arguments, OfCheckAndMaterialsAreRead) {
    EXPECT_EQ(good<CheckArguments>({"check", "a.toml"}).case_file, "a.toml");
    EXPECT_FALSE(good<MaterialsArguments>({"materials"}).name.has_value());
    EXPECT_EQ(good<MaterialsArguments>({"materials", "2024-O"}).name, "2024-O");
    EXPECT_FALSE(good<MaterialsArguments>({"materials", "2024-O"}).picture.has_value());
    const Words drawn{"materials", "2024-O", "--picture", "a.png"};
    EXPECT_EQ(good<MaterialsArguments>(drawn).picture, "a.png");
}

TEST(Arguments, EveryCommandTakesAFolderOfOwnSheets) {
    EXPECT_FALSE(good<RunArguments>({"run", "a.toml"}).sheets.has_value());
    EXPECT_EQ(good<RunArguments>({"run", "a.toml", "--sheets", "own"}).sheets, "own");
    EXPECT_EQ(good<CheckArguments>({"check", "a.toml", "--sheets", "own"}).sheets, "own");
    EXPECT_EQ(good<MaterialsArguments>({"materials", "--sheets", "own"}).sheets, "own");
}

TEST(Arguments, OfSolveForAreRead) {
    const auto depth = good<SolveForArguments>(
        {"solve-for", "flange-depth", "a.toml", "--from", "10", "--to", "1 in", "--limit", "80 %"}
    );
    EXPECT_EQ(depth.what, SolveFor::flange_depth);
    EXPECT_EQ(depth.case_file, "a.toml");
    EXPECT_EQ(depth.from, "10");
    EXPECT_EQ(depth.to, "1 in");
    EXPECT_EQ(depth.limit, "80 %");
    EXPECT_FALSE(depth.out.has_value());
    const auto undercut = good<SolveForArguments>(
        {"solve-for", "undercut", "a.toml", "--one-value", "--out", "b", "--no-pictures"}
    );
    EXPECT_EQ(undercut.what, SolveFor::undercut);
    EXPECT_TRUE(undercut.one_value);
    EXPECT_EQ(undercut.out, "b");
    EXPECT_FALSE(undercut.with_pictures);
}

TEST(Arguments, OfFitAreReadWithTheirUnits) {
    const auto fit =
        good<FitArguments>({"fit",       "a.csv",       "--gauge-length", "2 in",      "--width",
                            "12.5",      "--thickness", "0.032 in",       "--modulus", "10.6 Msi",
                            "--poisson", "0.3",         "--direction",    "90",        "--name",
                            "lot 7",     "--out",       "b.toml",         "--picture", "c.png"});
    EXPECT_EQ(fit.test_file, "a.csv");
    EXPECT_DOUBLE_EQ(*fit.sizes.gauge_length, 50.8);
    EXPECT_DOUBLE_EQ(*fit.sizes.width, 12.5);
    EXPECT_DOUBLE_EQ(*fit.sizes.thickness, 0.8128);
    EXPECT_NEAR(*fit.youngs_modulus, 73'084, 1);
    EXPECT_DOUBLE_EQ(*fit.poisson_ratio, 0.3);
    EXPECT_EQ(fit.direction, 90);
    EXPECT_EQ(fit.name, "lot 7");
    EXPECT_EQ(fit.out, "b.toml");
    EXPECT_EQ(fit.picture, "c.png");
    const auto plain = good<FitArguments>({"fit", "a.csv"});
    EXPECT_FALSE(plain.sizes.width || plain.youngs_modulus || plain.name || plain.out);
    EXPECT_EQ(plain.direction, 0);
}

TEST(Arguments, OfCouponAreRead) {
    const auto write = good<CouponWriteArguments>({"coupon", "write", "a.toml", "--out", "here"});
    EXPECT_EQ(write.case_file, "a.toml");
    EXPECT_EQ(write.out, "here");
    const auto read = good<CouponReadArguments>(
        {"coupon",
         "read",
         "m.csv",
         "--sheet",
         "2024-O",
         "--lot",
         "A 1",
         "--finish",
         "polished",
         "--out",
         "own.toml",
         "--sheets",
         "own",
         "--thickness",
         "0.032 in"}
    );
    EXPECT_THAT(read.measured_files, testing::ElementsAre("m.csv"));
    EXPECT_EQ(read.sheet, "2024-O");
    EXPECT_EQ(read.lot, "A 1");
    EXPECT_EQ(read.finish, material::EdgeFinish::polished);
    EXPECT_EQ(read.out, "own.toml");
    EXPECT_EQ(read.sheets, "own");
    EXPECT_DOUBLE_EQ(read.thickness.value(), 0.8128);
}

TEST(Arguments, OfTemplatesAreRead) {
    const Words plain{"templates", "a.toml", "--out", "cut"};
    EXPECT_EQ(good<TemplatesArguments>(plain).case_file, "a.toml");
    EXPECT_EQ(good<TemplatesArguments>(plain).out, "cut");
    EXPECT_FALSE(good<TemplatesArguments>(plain).is_letter);
    EXPECT_FALSE(good<TemplatesArguments>(plain).is_by_hand);
    const auto all = good<TemplatesArguments>(
        {"templates",
         "a.toml",
         "--out",
         "cut",
         "--depth",
         "3/4 in",
         "--within",
         "0.2",
         "--paper",
         "Letter",
         "--threads",
         "1",
         "--sheets",
         "own"}
    );
    EXPECT_TRUE(all.is_letter);
    EXPECT_EQ(all.depth, "3/4 in");
    EXPECT_EQ(all.within, "0.2");
    EXPECT_EQ(all.n_threads, 1);
    EXPECT_EQ(all.sheets, "own");
}

TEST(Arguments, HelpShowsAnExampleForEachCommand) {
    for (const Words& words :
         {Words{"--help"},
          Words{"run", "--help"},
          Words{"check", "--help"},
          Words{"materials", "-h"},
          Words{"fit", "--help"},
          Words{"coupon", "--help"},
          Words{"coupon", "write", "--help"},
          Words{"coupon", "read", "--help"},
          Words{"templates", "--help"}}) {
        const auto arguments = read_arguments(words);
        ASSERT_FALSE(arguments.has_value());
        EXPECT_EQ(arguments.error().exit_code, 0);
        EXPECT_THAT(arguments.error().text, HasSubstr("Example:\n  flangewright "));
    }
    EXPECT_THAT(read_arguments({"run", "--help"}).error().text, HasSubstr("--no-pictures"));
}

TEST(Arguments, VersionIsTold) {
    const auto arguments = read_arguments({"--version"});
    ASSERT_FALSE(arguments.has_value());
    EXPECT_EQ(arguments.error().exit_code, 0);
    EXPECT_EQ(arguments.error().text, "flangewright " + program_version() + "\n");
}

struct BadWords {
    std::string name;
    Words words;
    std::string line;
};

class BadCommandLine : public ::testing::TestWithParam<BadWords> {};

TEST_P(BadCommandLine, IsOneLineAndExitCodeTwo) {
    const auto arguments = read_arguments(GetParam().words);
    ASSERT_FALSE(arguments.has_value());
    EXPECT_EQ(arguments.error().exit_code, 2);
    EXPECT_EQ(arguments.error().text, GetParam().line + "\n");
}

INSTANTIATE_TEST_SUITE_P(
    Each,
    BadCommandLine,
    ::testing::Values(
        BadWords{
            "Nothing",
            {},
            "command line: command: found nothing, allowed run, compare, check, materials, "
            "fit, coupon, solve-for, templates or log, do: see \"flangewright --help\""},
        BadWords{
            "UnknownCommand",
            {"rnu", "a.toml"},
            "command line: flangewright: found \"rnu\", allowed --help, --version, run, compare, "
            "check, materials, fit, coupon, solve-for, templates or log, do: write run"},
        BadWords{
            "SolveForNothing",
            {"solve-for"},
            "command line: WHAT: found nothing, allowed undercut, flange-depth, plan-radius or "
            "nose-radius, do: write flangewright solve-for WHAT CASE"},
        BadWords{
            "SolveForUnknown",
            {"solve-for", "undercu", "a.toml"},
            "command line: WHAT: found \"undercu\", allowed undercut, flange-depth, plan-radius or "
            "nose-radius, do: write undercut"},
        BadWords{
            "SolveForNoCase",
            {"solve-for", "undercut"},
            "command line: CASE: found nothing, allowed the path of a case file, do: write "
            "flangewright solve-for undercut CASE"},
        BadWords{
            "SolveForThreads",
            {"solve-for", "undercut", "a.toml", "--threads", "0"},
            "command line: --threads: found \"0\", allowed 1 to 256, do: write a whole number, or "
            "leave it out to use all cores"},
        BadWords{
            "UnknownOption",
            {"run", "a.toml", "--thread", "2"},
            "command line: flangewright run: found \"--thread\", allowed --help, --out, --threads, "
            "--no-pictures, --no-even-drive, --no-remedies, --resume, --from or --sheets, do: "
            "write "
            "--threads"},
        BadWords{
            "NoCase",
            {"run"},
            "command line: CASE: found nothing, allowed the path of a case file, do: write "
            "flangewright run CASE"},
        BadWords{
            "LogOfNothing",
            {"log", "a.toml"},
            "command line: --measured: found neither --measured nor --template, allowed one of "
            "them, with the path of a table, do: write --template FILE first, fill the table in, "
            "then --measured FILE"},
        BadWords{
            "LogOfBoth",
            {"log", "a.toml", "--measured", "m.csv", "--template", "t.csv"},
            "command line: --measured: found both --measured and --template, allowed one of "
            "them, with the path of a table, do: write --template FILE first, fill the table in, "
            "then --measured FILE"},
        BadWords{
            "LogPart",
            {"log", "a.toml", "--measured", "m.csv", "--part", " "},
            "command line: --part: found \" \", allowed 1 to 60 letters on one line, do: write a "
            "short name"},
        BadWords{
            "NoTest",
            {"fit"},
            "command line: TEST: found nothing, allowed the path of a tensile test, do: write "
            "flangewright fit TEST.csv"},
        BadWords{
            "Direction",
            {"fit", "a.csv", "--direction", "30"},
            "command line: --direction: found \"30\", allowed 0, 45 or 90, do: write the angle of "
            "the strip to the rolling direction, in degrees"},
        BadWords{
            "Modulus",
            {"fit", "a.csv", "--modulus", "73.1"},
            "command line: --modulus: found \"73.1\", allowed 20 GPa to 450 GPa, do: check the "
            "value and its unit"},
        BadWords{
            "MaterialFile",
            {"fit", "a.csv", "--out", "own.txt"},
            "command line: --out: found \"own.txt\", allowed a file name that ends in .toml, do: "
            "write it like own.toml"},
        BadWords{
            "NoFolderForTemplates",
            {"templates", "a.toml"},
            "command line: --out: found nothing, allowed the folder to write into, do: write "
            "flangewright templates CASE --out FOLDER"},
        BadWords{
            "PaperOfAnotherSize",
            {"templates", "a.toml", "--out", "cut", "--paper", "A3"},
            "command line: --paper: found \"A3\", allowed A4 or letter, do: write the size that "
            "lies in the printer"},
        BadWords{
            "CouponAlone",
            {"coupon"},
            "command line: coupon: found nothing, allowed write or read, do: see \"flangewright "
            "coupon --help\""},
        BadWords{
            "CouponOfNoCase",
            {"coupon", "write"},
            "command line: CASE: found nothing, allowed the path of a case file, do: write "
            "flangewright coupon write CASE"},
        BadWords{
            "CouponNowhere",
            {"coupon", "write", "a.toml"},
            "command line: --out: found nothing, allowed the folder to write into, do: write "
            "flangewright coupon write CASE --out FOLDER"},
        BadWords{
            "CouponUnknownOption",
            {"coupon", "write", "a.toml", "--ouf", "b"},
            "command line: flangewright coupon write: found \"--ouf\", allowed --help, --out or "
            "--sheets, do: write --out"},
        BadWords{
            "CouponTableTwice",
            {"coupon",
             "read",
             "m.csv",
             "n.csv",
             "m.csv",
             "--sheet",
             "x",
             "--lot",
             "a",
             "--finish",
             "filed"},
            "command line: MEASURED: found \"m.csv\" twice, allowed one table for each test "
            "flange, "
            "do: leave it out once"},
        BadWords{
            "CouponWithoutLot",
            {"coupon", "read", "m.csv", "--sheet", "2024-O", "--finish", "filed"},
            "command line: --lot: found nothing, allowed the lot the coupon was cut from, do: see "
            "\"flangewright coupon read --help\""},
        BadWords{
            "CouponOfTwoLines",
            {"coupon", "read", "m.csv", "--sheet", "x", "--lot", "a\nb", "--finish", "filed"},
            "command line: --lot: found \"a?b\", allowed 1 to 60 letters on one line, do: write "
            "the "
            "number on the sheet or its certificate"},
        BadWords{
            "CouponOfUnknownFinish",
            {"coupon", "read", "m.csv", "--sheet", "x", "--lot", "a", "--finish", "fine"},
            "command line: --finish: found \"fine\", allowed snipped, sawn, filed or polished, do: "
            "write how the coupon's edge was finished"},
        BadWords{
            "CouponOfUnknownThickness",
            {"coupon",
             "read",
             "m.csv",
             "--sheet",
             "x",
             "--lot",
             "a",
             "--finish",
             "filed",
             "--thickness",
             "81"},
            "command line: --thickness: found \"81\", allowed 0.1 mm to 6 mm, do: check the value "
            "and its unit"},
        BadWords{
            "NoCaseToCheck",
            {"check"},
            "command line: CASE: found nothing, allowed the path of a case file, do: write "
            "flangewright check CASE"},
        BadWords{
            "TwoCases",
            {"check", "a.toml", "b.toml"},
            "command line: flangewright check: found \"b.toml\", allowed --help or --sheets, do: "
            "see "
            "\"flangewright check --help\""},
        BadWords{
            "ThreadsNoNumber",
            {"run", "a.toml", "--threads", "many"},
            "command line: --threads: found \"many\", allowed 1 to 256, do: write a whole number, "
            "or "
            "leave it out to use all cores"},
        BadWords{
            "ThreadsZero",
            {"run", "a.toml", "--threads", "0"},
            "command line: --threads: found \"0\", allowed 1 to 256, do: write a whole number, or "
            "leave it out to use all cores"},
        BadWords{
            "OutWithoutFolder",
            {"run", "a.toml", "--out"},
            "command line: option: found \"--out\", allowed each option with its value, and once, "
            "do: see \"flangewright --help\""}
    ),
    [](const ::testing::TestParamInfo<BadWords>& bad) { return bad.param.name; }
);

} // namespace
} // namespace flangewright::command_line
