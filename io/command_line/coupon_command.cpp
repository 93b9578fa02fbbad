#include "io/command_line/coupon_command.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/limit_store.hpp"
#include "io/command_line/refusal.hpp"
#include "io/command_line/words.hpp"
#include "io/coupon/coupon_set.hpp"
#include "io/coupon/edge_reading.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"

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
    const Result<LimitTarget, InputProblem> target =
        limit_target(arguments.out, arguments.sheets, *sheet);
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
    const int code = store_limit(*target, limit, terminal);
    terminal.out << (code == done ? "\n" + caution() : "");
    return code;
}

} // namespace flangewright::command_line
