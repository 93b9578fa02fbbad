#include "io/command_line/command_line.hpp"
#include "io/command_line/coupon_command.hpp"
#include "io/command_line/refusal.hpp"
#include "io/command_line/words.hpp"
#include "io/coupon/bench_note.hpp"
#include "io/coupon/coupon_case.hpp"
#include "io/coupon/template_drawing.hpp"
#include "io/key_file/text_file.hpp"
#include "io/run_folder/whole_file.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;

constexpr const char* case_name = "case.toml";

struct NamedText {
    std::string name;
    std::string text;
};

/// All files, or why there is no test flange for this case.
Result<std::vector<NamedText>, InputProblem>
files_for(const case_file::CaseFile& own, const std::string& own_text, const std::string& file) {
    const Result<coupon::TestFlange, InputProblem> flange = coupon::test_flange(own.job, file);
    if (!flange) {
        return tl::unexpected(flange.error());
    }
    const Result<std::string, InputProblem> text =
        coupon::coupon_case(own, own_text, *flange, file);
    if (!text) {
        return tl::unexpected(text.error());
    }
    // The template is drawn from the case as it will be read.
    const case_file::CaseFileResult read = case_file::read_case_text(*text, case_name);
    if (!read) {
        const InputProblem& first = read.error().front();
        return tl::unexpected(InputProblem{
            file,
            0,
            0,
            first.key,
            "a case whose test flange would not do: found " + first.found,
            first.allowed,
            "write a coupon for a plainer flange of the same sheet"});
    }
    const std::vector<coupon::GaugeMark> marks = coupon::gauge_marks(read->job.blank.line, *flange);
    return std::vector<NamedText>{
        {case_name, *text},
        {"template.svg", coupon::template_drawing(read->job, *flange, marks)},
        {"bench.txt", coupon::bench_note(read->job, *flange, marks)},
        {"measured.csv", coupon::empty_table(marks)}};
}

std::optional<InputProblem>
file_that_is_there(const fs::path& folder, const std::vector<NamedText>& files) {
    for (const NamedText& file : files) {
        std::error_code ignored;
        if (fs::exists(folder / file.name, ignored)) {
            return InputProblem{
                "command line",
                0,
                0,
                "--out",
                (folder / file.name).string() + ", which is there already",
                "a folder without an earlier coupon",
                "name another folder; nothing was written"};
        }
    }
    return std::nullopt;
}

} // namespace

int write_coupon(const CouponWriteArguments& arguments, Terminal& terminal) {
    const case_file::CaseFileResult own = case_file::read_case_file(arguments.case_file);
    if (!own) {
        terminal.err << lines_for(own.error());
        return bad_input;
    }
    const auto own_text = key_file::read_text_file(arguments.case_file);
    if (!own_text) {
        return refuse(own_text.error(), terminal);
    }
    const auto files = files_for(*own, *own_text, arguments.case_file.string());
    if (!files) {
        return refuse(files.error(), terminal);
    }
    if (const auto problem = file_that_is_there(arguments.out, *files)) {
        return refuse(*problem, terminal);
    }
    const auto folder = run_folder::prepare_directory(arguments.out);
    if (!folder) {
        terminal.err << line_for(folder.error()) << "\n";
        return outside_trouble;
    }
    for (const NamedText& file : *files) {
        const auto written = run_folder::write_whole(arguments.out / file.name, file.text);
        if (!written) {
            terminal.err << line_for(written.error()) << "\n";
            return outside_trouble;
        }
        terminal.out << "Written: " << (arguments.out / file.name).string() << "\n";
    }
    terminal.out << "Read bench.txt first; \"flangewright check "
                 << (arguments.out / case_name).string()
                 << "\" works the test flange out by hand.\n\n"
                 << caution();
    return done;
}

} // namespace flangewright::command_line
