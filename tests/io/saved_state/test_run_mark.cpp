#include "io/saved_state/run_mark.hpp"
#include "tests/io/command_line/temporary_folder.hpp"
#include "tests/support/small_flange.hpp"

namespace flangewright::saved_state {
namespace {

job::Job some_job() {
    return support::small_flange(
        outline::BendLine::arc(50, 0.3, outline::Curve::concave),
        job::EndKind::free,
        job::EndKind::continues
    );
}

const RunMarkParts parts{.case_file_text = "a = 1\n", .program_version = "1"};

TEST(RunMark, ChangesWithTextNumbersVersionAndEachOption) {
    const std::string mark = run_mark(some_job(), parts);
    EXPECT_EQ(mark.size(), 16u);
    EXPECT_EQ(run_mark(some_job(), parts), mark);
    job::Job thicker = some_job();
    thicker.sheet.thickness = 1.1;
    EXPECT_NE(run_mark(thicker, parts), mark);
    for (void (*change)(RunMarkParts&) : std::initializer_list<void (*)(RunMarkParts&)>{
             [](RunMarkParts& other) { other.case_file_text = "a = 2\n"; },
             [](RunMarkParts& other) { other.program_version = "2"; },
             [](RunMarkParts& other) { other.with_pictures = false; },
             [](RunMarkParts& other) { other.with_even_drive = false; },
             [](RunMarkParts& other) { other.with_remedies = false; }}) {
        RunMarkParts other = parts;
        change(other);
        EXPECT_NE(run_mark(some_job(), other), mark);
    }
}

class RunMarkOfOwnSheet : public command_line::WithFolder {};

TEST_F(RunMarkOfOwnSheet, ChangesWithTheSheetsFile) {
    job::Job job = some_job();
    job.sheet.material.own_file = write("own.toml", "limit = 0.1\n");
    const std::string mark = run_mark(job, parts);
    write("own.toml", "limit = 0.2\n");
    EXPECT_NE(run_mark(job, parts), mark);
}

} // namespace
} // namespace flangewright::saved_state
