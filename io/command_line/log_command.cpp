#include "io/command_line/log_command.hpp"

#include "io/build_log/bias_store.hpp"
#include "io/build_log/blank_table.hpp"
#include "io/build_log/edge_witness.hpp"
#include "io/build_log/figure_words.hpp"
#include "io/build_log/found_run.hpp"
#include "io/case_file/case_file.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/limit_store.hpp"
#include "io/command_line/output_place.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/record_pdf/record_pdf.hpp"
#include "io/run_folder/pictures.hpp"
#include "io/run_folder/whole_file.hpp"
#include "solver/findings/edge_limit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using build_log::Compared;
using key_file::InputProblem;

constexpr const char* page_name = "log.html";
constexpr const char* pdf_name = "log.pdf";

int refuse(const InputProblem& problem, Terminal& terminal) {
    terminal.err << key_file::line_for(problem) << "\n";
    return bad_input;
}

int refuse(const OutsideProblem& problem, Terminal& terminal) {
    terminal.err << line_for(problem) << "\n";
    return outside_trouble;
}

InputProblem
option_problem(std::string option, std::string found, std::string allowed, std::string remedy) {
    return {
        "command line",
        0,
        0,
        std::move(option),
        std::move(found),
        std::move(allowed),
        std::move(remedy)};
}

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

/// One reading of one part: everything its pieces share.
class Log {
public:
    Log(const LogArguments& arguments,
        const LogSurroundings& around,
        Terminal& terminal,
        const case_file::CaseFile& file)
        : arguments_(arguments), around_(around), terminal_(terminal), file_(file),
          folder_(arguments.out.value_or(default_output_folder(arguments.case_file))),
          lot_(arguments.lot.empty() ? file.log.lot : arguments.lot),
          part_(arguments.part.empty() ? file.log.part : arguments.part) {}

    int go() {
        if (const auto problem = read()) {
            return refuse(*problem, terminal_);
        }
        all_ = build_log::compared(run_.prediction, readings_, file_.job);
        witness_ = build_log::edge_witness(readings_, file_.job, known_limit());
        std::optional<LimitTarget> target;
        if (arguments_.stores_limit && witness_.says_something) {
            auto found = place_for_limit();
            if (!found) {
                return refuse(found.error(), terminal_);
            }
            target = std::move(*found);
        }
        return write(target);
    }

private:
    std::optional<InputProblem> read() {
        auto run = build_log::find_run(folder_, file_.job, program_version());
        if (!run) {
            return run.error();
        }
        run_ = std::move(*run);
        build_log::MeasuredPart part;
        for (const build_log::StepPrediction& step : run_.prediction.steps) {
            part.steps.push_back(step.name);
        }
        part.length = file_.job.blank.line.length();
        part.thickness = file_.job.sheet.thickness;
        auto readings = build_log::read_readings(*arguments_.measured_file, part);
        if (!readings) {
            return readings.error();
        }
        readings_ = std::move(*readings);
        if (around_.bias_file) {
            auto bias = build_log::read_bias(*around_.bias_file);
            if (!bias) {
                return bias.error();
            }
            bias_ = std::move(*bias);
        }
        return std::nullopt;
    }

    /// What the verdict weighs this edge against.
    [[nodiscard]] std::optional<double> known_limit() const {
        return findings::edge_limit(file_.job.sheet.material, file_.job.blank.edge_finish)
            .bears.value;
    }

    [[nodiscard]] Result<LimitTarget, InputProblem> place_for_limit() const {
        if (!file_.job.blank.edge_finish) {
            return tl::unexpected(option_problem(
                "--store-edge-limit",
                "a case that does not say how the edge was finished",
                "a finish under [blank], edge",
                "write it there and run the case again"
            ));
        }
        if (lot_.empty()) {
            return tl::unexpected(option_problem(
                "--lot",
                "nothing",
                "the lot the part was cut from, to store a limit",
                "write it like --lot \"A 1234\""
            ));
        }
        const std::string& name = file_.job.sheet.material.name;
        const sheet_library::KnownSheet* sheet = sheet_library::find_sheet(name);
        if (sheet == nullptr) {
            return tl::unexpected(option_problem(
                "--store-edge-limit",
                "a sheet written out in the case, " + key_file::quoted_excerpt(name),
                "a sheet known by name",
                "write the limit into the case's own [sheet.material.edge_limit]"
            ));
        }
        return limit_target(std::nullopt, arguments_.sheets, *sheet);
    }

    [[nodiscard]] std::vector<build_log::BiasRow> bias_rows() const {
        std::vector<build_log::BiasRow> rows;
        for (const build_log::Figure figure : build_log::figures) {
            const auto mean = build_log::mean_difference(all_, figure, file_.job);
            if (!mean) {
                continue;
            }
            build_log::BiasRow row;
            row.date = around_.date;
            row.sheet = build_log::as_cell(file_.job.sheet.material.name);
            row.lot = build_log::as_cell(lot_);
            row.part = build_log::as_cell(part_);
            row.case_file =
                build_log::as_cell(fs::absolute(arguments_.case_file).lexically_normal().string());
            row.figure = build_log::name_of(figure);
            row.unit = build_log::unit_of(figure);
            row.n = mean->n;
            row.mean = build_log::in_own_unit(figure, mean->mean);
            rows.push_back(row);
        }
        return rows;
    }

    [[nodiscard]] std::string missing_words() const {
        std::string text = readings_.not_measured.empty()
            ? std::string()
            : "Not measured: " + key_file::listed(readings_.not_measured) + ".";
        const auto n_read = std::ranges::count_if(readings_.rows, &build_log::Reading::has_marks);
        const auto n_set =
            std::ranges::count(all_, build_log::Figure::edge_stretch, &Compared::figure);
        if (n_read > n_set) {
            text += text.empty() ? "" : " ";
            text += fmt::format(
                "Pairs of marks that reach past an end of the bend line and are not compared: {}.",
                n_read - n_set
            );
        }
        return text;
    }

    [[nodiscard]] std::string edge_words() const {
        return witness_.n_pairs == 0 ? std::string()
                                     : "What the edge says of its limit: " + witness_.because;
    }

    [[nodiscard]] std::vector<std::string> notes(const std::vector<std::string>& experience) const {
        std::vector<std::string> all{fmt::format(
            "Measured: {}, read on {}{}{}. Predicted by the run of {}. Between stations the "
            "prediction is taken straight; between edge marks it is the mean.",
            arguments_.measured_file->filename().string(),
            around_.date,
            lot_.empty() ? std::string() : ", lot " + lot_,
            part_.empty() ? std::string() : ", part " + part_,
            run_.prediction.date
        )};
        for (const std::string& text : {missing_words(), edge_words()}) {
            if (!text.empty()) {
                all.push_back(text);
            }
        }
        all.insert(all.end(), experience.begin(), experience.end());
        return all;
    }

    int write(const std::optional<LimitTarget>& target) {
        const std::vector<build_log::BiasRow> rows = bias_rows();
        // What the notes will say once this part is in them.
        const auto with_this = build_log::bias_from(build_log::bias_text(bias_, rows), "notes");
        const std::vector<std::string> experience = with_this
            ? build_log::experience_with(*with_this, file_.job.sheet.material.name)
            : std::vector<std::string>();
        const auto table = build_log::rows_of(all_, run_.prediction, file_.unit);
        const std::string page = sheet_page::with_measured(
            run_.page, sheet_page::measured_part(table, notes(experience))
        );
        if (page.empty()) {
            return refuse(
                InputProblem{
                    (folder_ / "sheet.html").string(),
                    0,
                    0,
                    "page",
                    "no place for what was measured",
                    "a page of this version of the program",
                    "run the case again: flangewright run CASE"},
                terminal_
            );
        }
        const std::string pdf = record_pdf::pdf_of(record(table, notes(experience)));
        if (pdf.empty()) {
            terminal_.out << pdf_name << " could not be made; " << page_name << " is complete.\n";
        } else if (const auto done_pdf = run_folder::write_whole(folder_ / pdf_name, pdf);
                   !done_pdf) {
            return refuse(done_pdf.error(), terminal_);
        }
        const auto written = run_folder::write_whole(folder_ / page_name, page);
        if (!written) {
            return refuse(written.error(), terminal_);
        }
        tell(table, experience);
        if (const int code = keep_bias(rows); code != done) {
            return code;
        }
        if (const int code = keep_limit(target); code != done) {
            return code;
        }
        terminal_.out << "\nPage: " << written->string() << "\n\n" << caution();
        return done;
    }

    /// The page in short, with the pictures that the run left.
    [[nodiscard]] record_pdf::Record
    record(std::vector<sheet_page::MeasuredRow> table, std::vector<std::string> notes) const {
        record_pdf::Record record;
        record.title = file_.job.title;
        record.made_by = fmt::format(
            "flangewright {}, run of {}, from {}",
            program_version(),
            run_.prediction.date,
            arguments_.case_file.string()
        );
        record.verdict = run_.prediction.verdict;
        record.because = run_.prediction.because;
        record.log = file_.log;
        record.log.lot = lot_;
        record.log.part = part_;
        record.rows = std::move(table);
        record.notes = std::move(notes);
        record.pictures = run_folder::pictures_in(folder_);
        return record;
    }

    void tell(
        const std::vector<sheet_page::MeasuredRow>& table,
        const std::vector<std::string>& experience
    ) const {
        std::vector<std::vector<std::string>> rows{
            {"step", "figure", "predicted", "measured", "difference"}};
        for (const sheet_page::MeasuredRow& each : table) {
            rows.push_back({each.step, each.what, each.predicted, each.measured, each.difference});
        }
        std::array<std::size_t, 5> widths{};
        for (const auto& row : rows) {
            for (std::size_t i = 0; i < widths.size(); ++i) {
                widths[i] = std::max(widths[i], row[i].size() + 2);
            }
        }
        terminal_.out << file_.job.title << ": predicted and measured\n";
        for (const auto& row : rows) {
            std::string line = "  ";
            for (std::size_t i = 0; i < widths.size(); ++i) {
                line += fmt::format("{:<{}}", row[i], i + 1 < widths.size() ? widths[i] : 0);
            }
            terminal_.out << line << "\n";
        }
        terminal_.out << "Difference: predicted less measured.\n";
        for (const std::string& text : {missing_words(), edge_words()}) {
            terminal_.out << (text.empty() ? text : as_lines(text));
        }
        for (const std::string& sentence : experience) {
            terminal_.out << as_lines(sentence);
        }
    }

    int keep_bias(const std::vector<build_log::BiasRow>& rows) const {
        if (rows.empty() || !around_.bias_file) {
            terminal_.out
                << (rows.empty() ? "Nothing for the notes of earlier parts.\n"
                                 : "No home folder: no notes of this part are kept.\n");
            return done;
        }
        const auto stored = build_log::store_bias(*around_.bias_file, rows);
        if (!stored) {
            return std::visit(
                [this](const auto& problem) { return refuse(problem, terminal_); }, stored.error()
            );
        }
        terminal_.out << "Kept for later parts: " << stored->string() << "\n";
        return done;
    }

    int keep_limit(const std::optional<LimitTarget>& target) const {
        if (!arguments_.stores_limit) {
            return done;
        }
        if (!target) {
            terminal_.out << "The edge limit stays as it is.\n";
            return done;
        }
        const std::string seen = witness_.cracked
            ? fmt::format("cracked at {:.1f} %", 100 * *witness_.cracked)
            : std::string("no crack yet");
        return store_limit(
            *target,
            {*file_.job.blank.edge_finish,
             witness_.stretch,
             fmt::format(
                 "part, lot {}, {}; {}, over {:.3g} mm", lot_, around_.date, seen, witness_.gauge
             )},
            terminal_
        );
    }

    const LogArguments& arguments_;
    const LogSurroundings& around_;
    Terminal& terminal_;
    const case_file::CaseFile& file_;
    fs::path folder_;
    std::string lot_;
    std::string part_;
    build_log::FoundRun run_;
    build_log::Readings readings_;
    std::vector<build_log::BiasRow> bias_;
    std::vector<Compared> all_;
    build_log::EdgeWitness witness_;
};

} // namespace

int log_part(const LogArguments& arguments, const LogSurroundings& around, Terminal& terminal) {
    const case_file::CaseFileResult file = case_file::read_case_file(arguments.case_file);
    if (!file) {
        terminal.err << lines_for(file.error());
        return bad_input;
    }
    return arguments.template_file ? write_template(*arguments.template_file, *file, terminal)
                                   : Log(arguments, around, terminal, *file).go();
}

} // namespace flangewright::command_line
