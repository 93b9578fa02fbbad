#include "io/command_line/templates_command.hpp"

#include "io/blank_template/blank_sheet.hpp"
#include "io/blank_template/lip_sheets.hpp"
#include "io/blank_template/outline_table.hpp"
#include "io/blank_template/tool_sheets.hpp"
#include "io/command_line/command_line.hpp"
#include "io/command_line/progress_line.hpp"
#include "io/command_line/stop_signal.hpp"
#include "io/command_line/wanted_depth.hpp"
#include "io/command_line/words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/paper/dxf_sheet.hpp"
#include "io/paper/pdf_pages.hpp"
#include "io/paper/svg_sheet.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/tables/shown_length.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/process/outline_guess.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using blank_template::TemplateRequest;
using key_file::InputProblem;
using outline::Profile;
using process::BlankOutline;
using process::StopReason;

constexpr std::array file_names{
    "template.pdf", "template.svg", "template.dxf", "outline.csv", "blank.toml"};

std::optional<InputProblem> file_that_is_there(const fs::path& folder) {
    for (const char* name : file_names) {
        std::error_code ignored;
        if (fs::exists(folder / name, ignored)) {
            return InputProblem{
                "command line",
                0,
                0,
                "--out",
                (folder / name).string() + ", which is there already",
                "a folder without earlier templates",
                "name another folder; nothing was written"};
        }
    }
    return std::nullopt;
}

Result<double, InputProblem> within_of(const std::string& word, units::LengthUnit unit) {
    constexpr double least = 0.05; // mm: below it the mesh decides, not the outline
    constexpr double most = 5;
    if (word.empty()) {
        return process::OutlineSearch{}.within;
    }
    const units::Written read = units::read_length(word, unit);
    if (read && *read >= least && *read <= most) {
        return *read;
    }
    return tl::unexpected(InputProblem{
        "command line",
        0,
        0,
        "--within",
        key_file::quoted_excerpt(word),
        read ? units::in_mm(least) + " to " + units::in_mm(most) : read.error().allowed,
        read ? "write what the part may miss the drawing's depth by" : read.error().remedy});
}

struct NamedBytes {
    std::string name;
    std::string bytes;
};

/// All templates of one case; everything that its parts share.
class Templates {
public:
    Templates(const TemplatesArguments& arguments, Terminal& terminal, case_file::CaseFile file)
        : arguments_(arguments), terminal_(terminal), file_(std::move(file)) {
        request_.job = file_.job;
        request_.unit = file_.unit;
        request_.shows_grain = file_.states_rolling_direction;
    }

    int go(const MakeFormer& make_former) {
        const Result<double, InputProblem> within = within_of(arguments_.within, file_.unit);
        if (!within) {
            return refuse(within.error());
        }
        if (const auto problem = take_depth(arguments_.depth, file_)) {
            return refuse(*problem);
        }
        request_.job.blank.flange_depth = file_.job.blank.flange_depth;
        if (const auto problem = file_that_is_there(arguments_.out)) {
            return refuse(*problem);
        }
        if (const auto folder = run_folder::prepare_directory(arguments_.out); !folder) {
            return fail(folder.error());
        }
        const std::optional<Profile> wanted = wanted_depth(file_);
        const int found = wanted ? find(*wanted, *within, make_former) : take_flat_width();
        if (found != done && !is_written_nevertheless_) {
            return found;
        }
        const int written = write(wanted);
        return written == done ? found : written;
    }

private:
    std::string shown(double length) const { return tables::shown_length(length, file_.unit); }

    /// The case's own flat width.
    [[nodiscard]] Profile net_of_case() const {
        const job::Blank& blank = file_.job.blank;
        const Profile cut = blank.flange_widths.is_empty() ? Profile({{0, blank.flange_width}})
                                                           : blank.flange_widths;
        return cut.raised_by(-blank.trim_allowance);
    }

    int take_flat_width() {
        request_.net = net_of_case();
        note("Flat width as the case states it; no part was formed. --depth states the depth "
             "wanted after forming.");
        return done;
    }

    int find(const Profile& wanted, double within, const MakeFormer& make_former) {
        if (arguments_.is_by_hand) {
            request_.net = process::guessed_net_widths(file_.job, wanted);
            note(
                file_.job.return_bend
                    ? "Flat width by hand (development of flange and lip); no part was formed."
                    : "Flat width by hand (development); no part was formed."
            );
            return done;
        }
        return search(wanted, within, make_former);
    }

    int search(const Profile& wanted, double within, const MakeFormer& make_former) {
        const StopSignal signal;
        ProgressLine line(terminal_);
        Monitor monitor;
        monitor.on_progress = [&line](const Progress& progress) { line.show(progress); };
        monitor.stop = signal.token();
        const process::Former solve = make_former(arguments_.n_threads, monitor);
        int n_formed = 0;
        const process::Former former = [&](const job::Job& job) {
            Result<process::FormedPart> part = solve(job);
            line.clear();
            if (part && part->reason == StopReason::done) {
                tell_round(++n_formed, *part, wanted);
            }
            return part;
        };
        process::OutlineSearch search;
        search.within = within;
        const Result<BlankOutline> found = process::find_outline(file_.job, wanted, search, former);
        return found ? take(*found, within) : fail(found.error());
    }

    void tell_round(int number, const process::FormedPart& part, const Profile& wanted) {
        double least = 0;
        double most = 0;
        for (const outline::ProfilePoint& at : part.depths) {
            const double miss =
                at.value - (is_lip() ? file_.job.return_bend->lip_depth : wanted.at(at.station));
            least = std::min(least, miss);
            most = std::max(most, miss);
        }
        terminal_.out << fmt::format(
            "part {} formed: {}depth misses by {:+.2f} to {:+.2f} mm\n",
            number,
            is_lip() ? "lip " : "",
            least,
            most
        ) << std::flush;
    }

    int take(const BlankOutline& found, double within) {
        if (found.reason != StopReason::done) {
            const bool is_stopped = found.reason == StopReason::stop_requested;
            terminal_.err
                << (is_stopped ? "Stopped as asked; no template was written.\n"
                               : "The part could not be formed: no balance of forces "
                                 "was found; no template was written. \"flangewright "
                                 "run\" shows how far it comes, --by-hand gives the "
                                 "development alone.\n");
            return is_stopped ? interrupted : no_equilibrium;
        }
        request_.net = found.net;
        for (const outline::ProfilePoint& at : found.lip_angles) {
            request_.lip_angles.push_back(at.value);
        }
        found_ = found;
        note(fmt::format(
            "Formed {} time{} on the computer: {} misses the drawing by at most {} ({} allowed).",
            found.n_rounds,
            found.n_rounds == 1 ? "" : "s",
            is_lip() ? "lip depth" : "depth",
            shown_miss({found.largest_miss, found.miss_station}),
            shown(within)
        ));
        if (is_lip()) {
            note(
                "Flange depth to the lip's outside misses it by at most "
                + shown_miss(process::largest_of(found.flange_depths))
                + ": blocks and springback decide it, not the blank."
            );
        }
        note_openings(found);
        if (found.meets(within)) {
            return done;
        }
        if (found.largest_miss > within) {
            note(
                "THE DRAWING IS NOT MET: leave metal on at "
                + shown_miss({found.largest_miss, found.miss_station}) + " and trim to the drawing."
            );
        } else {
            note("THE DRAWING IS NOT MET by the flange's depth, which no blank changes: move the "
                 "lip's block, or correct its angle.");
        }
        is_written_nevertheless_ = true;
        return no_equilibrium;
    }

    [[nodiscard]] bool is_lip() const { return file_.job.return_bend.has_value(); }

    [[nodiscard]] std::string shown_miss(const process::LargestMiss& largest) const {
        return shown(std::abs(largest.miss)) + " at station "
            + tables::brief_length(largest.station, file_.unit);
    }

    void note_openings(const BlankOutline& found) {
        if (found.leaves_openings_out) {
            note("Formed without holes in the flange, notches and tabs, with which no part could "
                 "be formed; they are drawn as in the case, on the flat blank.");
            return;
        }
        if (found.holes.empty()) {
            return;
        }
        note(
            "Holes in the flange are drawn where the case has them: on the flat blank. Formed they "
            "lie, by station along the bend line and depth from the web's outside along the "
            "flange:"
        );
        for (const findings::FormedHole& hole : found.holes) {
            note(fmt::format(
                "hole {}: station {}, depth {}, {} to {} across.",
                hole.number,
                shown(hole.station),
                shown(hole.depth),
                shown(hole.least_diameter),
                shown(hole.most_diameter)
            ));
        }
    }

    void note(const std::string& sentence) { request_.notes.push_back(sentence); }

    int write(const std::optional<Profile>& wanted) {
        const std::vector<paper::Sheet> sheets = all_sheets(wanted);
        const Result<std::string> pdf = paper::pdf_of(
            sheets,
            arguments_.is_letter ? paper::letter() : paper::a4(),
            {file_.job.title,
             "Print at 100 %; check both bars with a rule before you cut. A forming estimate: the "
             "drawing and approved data decide."}
        );
        if (!pdf) {
            return fail(pdf.error());
        }
        constexpr double gap = 20; // mm between drawings
        const paper::Sheet all = paper::stacked(sheets, gap);
        std::vector<NamedBytes> files{
            {file_names[0], *pdf},
            {file_names[1], paper::svg_of(all)},
            {file_names[2], paper::dxf_of(all, file_.unit)},
            {file_names[3],
             blank_template::outline_table(request_, found_.depths, found_.flange_depths)}};
        if (const auto lines = blank_template::flat_width_lines(request_)) {
            files.push_back({file_names[4], *lines});
        }
        return write_all(files);
    }

    [[nodiscard]] std::vector<paper::Sheet> all_sheets(const std::optional<Profile>& wanted) const {
        std::vector<paper::Sheet> sheets{
            blank_template::blank_sheet(request_),
            blank_template::form_block_sheet(request_),
            blank_template::backing_sheet(request_)};
        if (is_lip()) {
            sheets.push_back(blank_template::lip_block_sheet(request_));
            sheets.push_back(blank_template::lip_section_sheet(request_));
        } else {
            sheets.push_back(
                blank_template::section_sheet(request_, wanted.value_or(formed_by_hand()))
            );
        }
        return sheets;
    }

    /// For the section's drawing only, where the case states a flat width.
    [[nodiscard]] Profile formed_by_hand() const {
        return Profile({{0, findings::formed_flange_depth(file_.job, request_.net.most())}});
    }

    int write_all(const std::vector<NamedBytes>& files) {
        std::vector<fs::path> written;
        for (const NamedBytes& file : files) {
            const auto path = run_folder::write_whole(arguments_.out / file.name, file.bytes);
            if (!path) {
                for (const fs::path& other : written) { // half a set would be cut from
                    std::error_code ignored;
                    fs::remove(other, ignored);
                }
                return fail(path.error());
            }
            written.push_back(*path);
        }
        for (const std::string& sentence : request_.notes) {
            terminal_.out << sentence << "\n";
        }
        for (const fs::path& path : written) {
            terminal_.out << "Written: " << path.string() << "\n";
        }
        terminal_.out << "Check both bars of the print with a rule before you cut.\n\n"
                      << caution();
        return done;
    }

    int refuse(const InputProblem& problem) {
        terminal_.err << key_file::line_for(problem) << "\n";
        return bad_input;
    }
    int fail(const OutsideProblem& problem) {
        terminal_.err << line_for(problem) << "\n";
        return outside_trouble;
    }

    const TemplatesArguments& arguments_;
    Terminal& terminal_;
    case_file::CaseFile file_;
    TemplateRequest request_;
    BlankOutline found_; ///< empty: no part was formed
    bool is_written_nevertheless_ = false;
};

} // namespace

int write_templates(
    const TemplatesArguments& arguments, Terminal& terminal, const MakeFormer& make_former
) {
    case_file::CaseFileResult file = case_file::read_case_file(arguments.case_file);
    if (!file) {
        terminal.err << lines_for(file.error());
        return bad_input;
    }
    return Templates(arguments, terminal, std::move(*file)).go(make_former);
}

} // namespace flangewright::command_line
