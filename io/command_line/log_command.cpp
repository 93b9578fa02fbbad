#include "io/command_line/log_command.hpp"

#include "io/build_log/blank_table.hpp"
#include "io/build_log/figure_words.hpp"
#include "io/case_file/case_file.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/log_stores.hpp"
#include "io/command_line/log_words.hpp"
#include "io/command_line/logged_part.hpp"
#include "io/command_line/refusal.hpp"
#include "io/command_line/words.hpp"
#include "io/record_pdf/record_pdf.hpp"
#include "io/run_folder/pictures.hpp"
#include "io/run_folder/whole_file.hpp"

#include <fmt/format.h>

#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;

constexpr const char* page_name = "log.html";
constexpr const char* pdf_name = "log.pdf";

int write_template(const fs::path& path, const case_file::CaseFile& file, Terminal& terminal) {
    std::error_code ignored;
    if (fs::exists(path, ignored)) {
        return refuse(
            option_problem(
                "--template",
                path.string() + ", which is there already",
                "a new file",
                "name another one; nothing was written"
            ),
            terminal
        );
    }
    const auto written = run_folder::write_whole(path, build_log::blank_table(file.job, file.unit));
    if (!written) {
        return refuse(written.error(), terminal);
    }
    terminal.out << "Written: " << path.string()
                 << "\nFill it in, then: flangewright log CASE --measured " << path.string()
                 << "\n";
    return done;
}

/// The page in short, with the pictures that the run left.
record_pdf::Record record_of(
    const LoggedPart& part,
    std::vector<sheet_page::MeasuredRow> table,
    std::vector<std::string> notes
) {
    record_pdf::Record record;
    record.title = part.file.job.title;
    record.made_by = fmt::format(
        "flangewright {}, run of {}, from {}",
        program_version(),
        part.run.prediction.date,
        part.arguments.case_file.string()
    );
    record.verdict = part.run.prediction.verdict;
    record.because = part.run.prediction.because;
    record.log = part.file.log;
    record.log.lot = part.lot;
    record.log.part = part.part;
    record.rows = std::move(table);
    record.notes = std::move(notes);
    record.pictures = run_folder::pictures_in(part.folder);
    return record;
}

int write_pages(
    const LoggedPart& part,
    const std::vector<sheet_page::MeasuredRow>& table,
    const std::vector<std::string>& notes,
    Terminal& terminal
) {
    const std::string page =
        sheet_page::with_measured(part.run.page, sheet_page::measured_part(table, notes));
    if (page.empty()) {
        return refuse(
            InputProblem{
                (part.folder / "sheet.html").string(),
                0,
                0,
                "page",
                "no place for what was measured",
                "a page of this version of the program",
                "run the case again: flangewright run CASE"},
            terminal
        );
    }
    const auto written = run_folder::write_whole(part.folder / page_name, page);
    if (!written) {
        return refuse(written.error(), terminal);
    }
    const std::string pdf = record_pdf::pdf_of(record_of(part, table, notes));
    if (pdf.empty()) {
        terminal.out << pdf_name << " could not be made; " << page_name << " is complete.\n";
        return done;
    }
    const auto written_pdf = run_folder::write_whole(part.folder / pdf_name, pdf);
    return written_pdf ? done : refuse(written_pdf.error(), terminal);
}

/// What the notes will say once this part is in them.
std::vector<std::string>
experience_with(const LoggedPart& part, const std::vector<build_log::BiasRow>& rows) {
    const auto with_this = build_log::bias_from(build_log::bias_text(part.bias, rows), "notes");
    return with_this ? build_log::experience_with(*with_this, part.file.job.sheet.material.name)
                     : std::vector<std::string>();
}

/// Where the limit goes is known before anything is written.
int write(const LoggedPart& part, Terminal& terminal) {
    const auto target = place_for_limit(part);
    if (!target) {
        return refuse(target.error(), terminal);
    }
    const std::vector<build_log::BiasRow> rows = bias_rows(part);
    const std::vector<std::string> experience = experience_with(part, rows);
    const auto table = build_log::rows_of(part.compared, part.run.prediction, part.file.unit);
    if (const int code = write_pages(part, table, log_notes(part, experience), terminal);
        code != done) {
        return code;
    }
    terminal.out << log_text(part, table, experience);
    if (const int code = keep_bias(part, rows, terminal); code != done) {
        return code;
    }
    if (const int code = keep_limit(part, *target, terminal); code != done) {
        return code;
    }
    terminal.out << "\nPage: " << (part.folder / page_name).string() << "\n\n" << caution();
    return done;
}

} // namespace

int log_part(const LogArguments& arguments, const LogSurroundings& around, Terminal& terminal) {
    const case_file::CaseFileResult file = case_file::read_case_file(arguments.case_file);
    if (!file) {
        terminal.err << lines_for(file.error());
        return bad_input;
    }
    if (arguments.template_file) {
        return write_template(*arguments.template_file, *file, terminal);
    }
    const auto part = logged_part(arguments, around, *file);
    return part ? write(*part, terminal) : refuse(part.error(), terminal);
}

} // namespace flangewright::command_line
