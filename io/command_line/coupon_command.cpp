#include "io/command_line/coupon_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/words.hpp"
#include "io/coupon/coupon_set.hpp"
#include "io/coupon/edge_reading.hpp"
#include "io/coupon/sheet_with_limit.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/key_file/text_file.hpp"
#include "io/run_folder/whole_file.hpp"
#include "io/sheet_library/sheet_file.hpp"
#include "io/sheet_library/user_folder.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <ostream>

namespace flangewright::command_line {

namespace {

namespace fs = std::filesystem;
using coupon::CouponSet;
using coupon::EdgeReading;
using coupon::PairReading;
using key_file::InputProblem;
using sheet_library::KnownSheet;

int refuse(const InputProblem& problem, Terminal& terminal) {
    terminal.err << key_file::line_for(problem) << "\n";
    return bad_input;
}

std::string pair_words(const PairReading& pair) {
    return fmt::format(
        "{:.1f} % between marks {} and {} ({:.4g} mm became {:.4g} mm)",
        100 * pair.stretch(),
        pair.mark_from,
        pair.mark_to,
        pair.before,
        pair.after
    );
}

std::string bracket_text(const EdgeReading& reading) {
    std::string text = "  borne without a crack: " + pair_words(reading.borne) + "\n";
    text += reading.cracked
        ? "  cracked:               " + pair_words(*reading.cracked) + "\n"
        : "  no pair cracked: the edge bears at least this; a tighter radius would tell how much\n";
    if (!reading.borne_beyond.empty()) {
        const PairReading& most = std::ranges::max(reading.borne_beyond, {}, &PairReading::stretch);
        text += as_lines(fmt::format(
            "{} whole pair{} stretched as far as that or further, up to {:.1f} %: edge or "
            "reading scatter, so the lower figure counts.",
            reading.borne_beyond.size(),
            reading.borne_beyond.size() == 1 ? " was" : "s were",
            100 * most.stretch()
        ));
    }
    return text
        + as_lines(fmt::format(
            "0.1 mm misread is {:.1f} % of stretch on {:.4g} mm, the shortest distance measured.",
            10 / reading.shortest_gauge,
            reading.shortest_gauge
        ));
}

/// What all coupons together say, and which figure is stored.
std::string set_text(const CouponSet& set) {
    if (set.n == 1) {
        return as_lines("One coupon is one reading: bend two more, and read all of them at once.");
    }
    return as_lines(fmt::format(
        "{} coupons bore {:.1f} to {:.1f} %: mean {:.1f} %, standard deviation {:.1f} %. The least "
        "is "
        "stored: one more coupon of this lot bears less than it in {:.0f} of 100 cases, if all are "
        "alike.",
        set.n,
        100 * set.least,
        100 * set.most,
        100 * set.mean,
        100 * set.deviation,
        100 * coupon::chance_below_least(set.n)
    ));
}

std::string questions_text(const EdgeReading& reading) {
    std::string text;
    for (const coupon::ThicknessQuestion& question : reading.questions) {
        text += as_lines(fmt::format(
            "Line {}: {:.3g} mm thick at a stretch of {:.1f} %, where {:.3g} to {:.3g} mm were to "
            "be "
            "expected: a neck, a hammer mark, or a distance misread? Measure marks {} and {} "
            "again.",
            question.pair.line,
            *question.pair.thickness,
            100 * question.pair.stretch(),
            question.least,
            question.most,
            question.pair.mark_from,
            question.pair.mark_to
        ));
    }
    return text;
}

std::string source_words(
    const std::vector<EdgeReading>& readings,
    const CouponReadArguments& arguments,
    const std::string& date
) {
    const EdgeReading& reading =
        *std::ranges::min_element(readings, {}, [](const EdgeReading& each) {
            return each.borne.stretch();
        });
    if (readings.size() > 1) {
        return fmt::format(
            "least of {} coupons, lot {}, {}; mean {:.1f} %, over {:.3g} mm",
            readings.size(),
            arguments.lot,
            date,
            100 * coupon::set_of(readings).mean,
            reading.borne.before
        );
    }
    return fmt::format(
        "coupon, lot {}, {}; {}, over {:.3g} mm",
        arguments.lot,
        date,
        reading.cracked ? fmt::format("cracked at {:.1f} %", 100 * reading.cracked->stretch())
                        : std::string("no crack yet"),
        reading.borne.before
    );
}

/// The text the limit is put into, and where it goes.
struct Target {
    fs::path path;
    std::string base;
    std::string base_name; ///< for problems
};

Result<std::string, InputProblem> text_of_own(const fs::path& path) {
    return key_file::read_text_file(path, {"sheet", 1'000'000});
}

InputProblem out_problem(const fs::path& path, std::string found, std::string allowed) {
    return {
        path.string(),
        0,
        0,
        "--out",
        std::move(found),
        std::move(allowed),
        "name another file; nothing was changed"};
}

/// A file that is there must hold this very sheet; its values are kept.
Result<Target, InputProblem> kept_file(const fs::path& path, const KnownSheet& sheet) {
    const Result<std::string, InputProblem> text = text_of_own(path);
    if (!text) {
        return tl::unexpected(text.error());
    }
    const sheet_library::SheetFile held =
        sheet_library::sheet_from(key_file::document_from(*text, path.string()));
    if (!held.sheet) {
        return tl::unexpected(held.problems.front());
    }
    if (sheet_library::bare_name(held.name) != sheet_library::bare_name(sheet.material.name)) {
        return tl::unexpected(out_problem(
            path,
            "the sheet " + key_file::quoted_excerpt(held.name),
            "a new file or one that holds " + key_file::quoted_excerpt(sheet.material.name)
        ));
    }
    return Target{path, *text, path.string()};
}

Result<Target, InputProblem> new_file(const fs::path& path, const KnownSheet& sheet) {
    if (!sheet.material.own_file.empty()) {
        const Result<std::string, InputProblem> text = text_of_own(sheet.material.own_file);
        return text ? Result<Target, InputProblem>(Target{path, *text, sheet.material.own_file})
                    : tl::unexpected(text.error());
    }
    const auto files = sheet_library::data_files();
    const auto data = std::ranges::find(files, sheet.file_name, &sheet_library::DataFile::name);
    return Target{path, std::string(data->text), sheet.file_name};
}

Result<Target, InputProblem>
target_for(const CouponReadArguments& arguments, const KnownSheet& sheet) {
    std::optional<fs::path> path = arguments.out;
    if (!path && !sheet.material.own_file.empty()) {
        path = sheet.material.own_file;
    }
    if (!path) {
        const std::optional<fs::path> folder =
            arguments.sheets ? arguments.sheets : sheet_library::users_own_folder();
        if (!folder) {
            return tl::unexpected(InputProblem{
                "command line",
                0,
                0,
                "--out",
                "nothing, and no home folder",
                "the path of a TOML file",
                "write it like --out own.toml"});
        }
        path = *folder / sheet.file_name;
    }
    std::error_code ignored;
    return fs::exists(*path, ignored) ? kept_file(*path, sheet) : new_file(*path, sheet);
}

std::string old_limit_text(const Target& target, material::EdgeFinish finish) {
    const sheet_library::SheetFile file =
        sheet_library::sheet_from(key_file::document_from(target.base, target.base_name));
    const auto& limits = file.sheet->material.edge_limits;
    const auto old = limits.find(finish);
    return old == limits.end() ? ""
                               : as_lines(fmt::format(
                                   "It stands in place of {} ({}: {}).",
                                   units::percent_text(*old->second.value, 1),
                                   material::word_for(old->second.grade),
                                   old->second.source
                               ));
}

int store(
    const CouponReadArguments& arguments,
    const Target& target,
    const coupon::MeasuredLimit& limit,
    Terminal& terminal
) {
    const auto text = coupon::sheet_with_limit(target.base, target.base_name, limit);
    if (!text) {
        return refuse(text.error(), terminal);
    }
    if (!arguments.out) { // the usual folder may be new
        const auto folder = run_folder::prepare_directory(target.path.parent_path());
        if (!folder) {
            terminal.err << line_for(folder.error()) << "\n";
            return outside_trouble;
        }
    }
    const auto written = run_folder::write_whole(target.path, *text);
    if (!written) {
        terminal.err << line_for(written.error()) << "\n";
        return outside_trouble;
    }
    terminal.out << "Stored: edge_limit." << material::word_for(limit.finish) << " = "
                 << fmt::format("{:.4g} %", 100 * limit.stretch) << " in " << target.path.string()
                 << "\n"
                 << old_limit_text(target, limit.finish)
                 << as_lines(
                        "All other values there are as they were. In the folder of your own "
                        "sheets the file stands in place of the built-in sheet; another lot or "
                        "finish needs a coupon of its own."
                    );
    return done;
}

InputProblem unknown_sheet(const std::string& name) {
    return {
        "command line",
        0,
        0,
        "--sheet",
        key_file::quoted_excerpt(name),
        key_file::listed(sheet_library::resembling_names(name)),
        "choose one, or see \"flangewright materials\""};
}

/// One per table; the first problem of any.
Result<std::vector<EdgeReading>, InputProblem> readings_of(const CouponReadArguments& arguments) {
    std::vector<EdgeReading> readings;
    for (const fs::path& file : arguments.measured_files) {
        const auto pairs = coupon::read_measured_file(file);
        if (!pairs) {
            return tl::unexpected(pairs.error());
        }
        const Result<EdgeReading, InputProblem> reading =
            coupon::edge_reading(*pairs, arguments.thickness, file.string());
        if (!reading) {
            return tl::unexpected(reading.error());
        }
        readings.push_back(*reading);
    }
    return readings;
}

} // namespace

std::string date_today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

int read_coupon(const CouponReadArguments& arguments, const std::string& date, Terminal& terminal) {
    const KnownSheet* sheet = sheet_library::find_sheet(arguments.sheet);
    if (sheet == nullptr) {
        return refuse(unknown_sheet(arguments.sheet), terminal);
    }
    const auto readings = readings_of(arguments);
    if (!readings) {
        return refuse(readings.error(), terminal);
    }
    const Result<Target, InputProblem> target = target_for(arguments, *sheet);
    if (!target) {
        return refuse(target.error(), terminal);
    }
    for (std::size_t i = 0; i < readings->size(); ++i) {
        const EdgeReading& reading = (*readings)[i];
        terminal.out << sheet->material.name << ", lot " << arguments.lot << ", "
                     << material::word_for(arguments.finish) << " edge: " << reading.n_pairs
                     << " pairs of marks"
                     << (readings->size() > 1 ? " in " + arguments.measured_files[i].string() : "")
                     << "\n"
                     << bracket_text(reading) << questions_text(reading);
    }
    const CouponSet set = coupon::set_of(*readings);
    terminal.out << set_text(set);
    const coupon::MeasuredLimit limit{
        arguments.finish, set.least, source_words(*readings, arguments, date)};
    const int code = store(arguments, *target, limit, terminal);
    terminal.out << (code == done ? "\n" + caution() : "");
    return code;
}

} // namespace flangewright::command_line
