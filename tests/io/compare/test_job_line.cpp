#include "io/compare/job_line.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

TEST(JobLine, IsAnOrdinaryRunWithOneThread) {
    Variant variant;
    variant.case_path = "/shop/my parts/cases/a.toml";
    variant.run_folder = "/shop/my parts/runs/a";
    EXPECT_EQ(
        job_line(variant, {}, {.program = "/usr/bin/flangewright", .sheets = "", .resumes = true}),
        "/usr/bin/flangewright run '/shop/my parts/cases/a.toml' --out '/shop/my parts/runs/a' "
        "--threads 1 --resume"
    );
}

TEST(JobLine, CarriesTheOptionsAlong) {
    Variant variant;
    variant.case_path = "/s/cases/a.toml";
    variant.run_folder = "/s/runs/a";
    saved_state::RunMarkParts options;
    options.with_pictures = false;
    options.with_even_drive = false;
    options.with_remedies = false;
    EXPECT_EQ(
        job_line(variant, options, {.program = "fw", .sheets = "/own", .resumes = false}),
        "fw run /s/cases/a.toml --out /s/runs/a --threads 1 --no-pictures --no-even-drive "
        "--no-remedies --sheets /own"
    );
}

TEST(JobLine, AWordIsOneWordForTheShell) {
    EXPECT_EQ(shell_word("plain-1.5mm"), "plain-1.5mm");
    EXPECT_EQ(shell_word("it's"), "'it'\\''s'");
    EXPECT_EQ(shell_word("$HOME"), "'$HOME'");
    EXPECT_EQ(shell_word(""), "''");
}

} // namespace
} // namespace flangewright::compare
