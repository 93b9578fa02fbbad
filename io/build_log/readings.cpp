#include "io/build_log/readings.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/key_file/text_file.hpp"
#include "io/tensile/csv_table.hpp"
#include "io/units/angle.hpp"
#include "io/units/length.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;
using tensile::CsvTable;
using tensile::small_letters;
template <typename T>
using Read = Result<T, InputProblem>;

enum class Kind { word, length, angle };

/// A column that may be there.
struct Quantity {
    const char* stem;
    Kind kind;
    const char* shown; ///< as a reader calls it
};

constexpr std::array quantities{
    Quantity{"step", Kind::word, "step"},
    Quantity{"station", Kind::length, "station"},
    Quantity{"angle", Kind::angle, "angle"},
    Quantity{"thickness", Kind::length, "thickness"},
    Quantity{"before", Kind::length, "edge marks before"},
    Quantity{"after", Kind::length, "edge marks after"},
    Quantity{"web_lift", Kind::length, "web lift"},
    Quantity{"cracked", Kind::word, "cracked"}};

constexpr std::size_t n_quantities = quantities.size();
enum Place : std::size_t { step, station, angle, thickness, before, after, web_lift, cracked };

constexpr double least_gauge = 1; // mm: no eye reads less to a per cent
constexpr double most_gauge = 200; // mm
constexpr double most_lift = 50; // mm
constexpr double least_stretch = -0.3;
constexpr double most_stretch = 2;

/// Names a column may have: "angle_deg"; "station_mm" or "station_in".
std::vector<std::string> names_of(const Quantity& quantity) {
    const std::string stem = quantity.stem;
    switch (quantity.kind) {
    case Kind::word:
        return {stem};
    case Kind::angle:
        return {stem + "_deg"};
    case Kind::length:
        break;
    }
    return {stem + "_mm", stem + "_in"};
}

std::vector<std::string> all_names() {
    std::vector<std::string> names;
    for (const Quantity& quantity : quantities) {
        for (std::string& name : names_of(quantity)) {
            names.push_back(std::move(name));
        }
    }
    return names;
}

double factor_for(const std::string& name) {
    if (name.ends_with("_in")) {
        return units::mm_per_inch;
    }
    return name.ends_with("_deg") ? units::radians(1) : 1;
}

/// Which column holds what.
struct Columns {
    std::array<std::optional<std::size_t>, n_quantities> index;
    std::array<double, n_quantities> factor{};
};

/// One file's table, and problems with their place in it.
class Sheet {
public:
    Sheet(const CsvTable& table, const std::string& file, const MeasuredPart& part)
        : table_(table), file_(file), part_(part) {}

    Read<Readings> readings() {
        if (const auto problem = find_columns()) {
            return tl::unexpected(*problem);
        }
        Readings all;
        for (std::size_t row = 0; row < table_.lines.size(); ++row) {
            const Reading reading = reading_in(row);
            if (const auto problem = problem_of(reading)) {
                return tl::unexpected(*problem);
            }
            if (reading.angle || reading.thickness || reading.after || reading.web_lift) {
                all.rows.push_back(reading);
            }
        }
        if (all.rows.empty()) {
            return tl::unexpected(InputProblem{
                file_,
                0,
                0,
                "file",
                "no figure under angle, thickness, before and after, or web_lift",
                "at least one figure that was measured",
                "fill in what you measured, then read it again"});
        }
        all.not_measured = not_measured(all.rows);
        return all;
    }

private:
    std::optional<InputProblem> find_columns() {
        for (std::size_t i = 0; i < table_.names.size(); ++i) {
            if (const auto problem = take_name(small_letters(table_.names[i]), i)) {
                return problem;
            }
        }
        if (!columns_.index[step]) {
            return name_problem("step", "no such column", "a column step", "");
        }
        if (columns_.index[before].has_value() != columns_.index[after].has_value()) {
            return name_problem(
                columns_.index[before] ? "after" : "before",
                "no such column",
                "both before and after, or neither",
                "edge marks are read before and after; add the other column"
            );
        }
        return std::nullopt;
    }

    std::optional<InputProblem> take_name(const std::string& name, std::size_t column) {
        for (std::size_t q = 0; q < n_quantities; ++q) {
            const std::vector<std::string> names = names_of(quantities[q]);
            if (std::ranges::find(names, name) != names.end()) {
                if (columns_.index[q]) {
                    return name_problem(name, "this quantity twice", "each column once", "");
                }
                columns_.index[q] = column;
                columns_.factor[q] = factor_for(name);
                return std::nullopt;
            }
            if (name == quantities[q].stem
                || name.starts_with(quantities[q].stem + std::string("_"))
                || name.starts_with(quantities[q].stem + std::string(" "))) {
                return name_problem(
                    key_file::excerpt(table_.names[column]),
                    "no unit, or one that is not known",
                    key_file::listed(names),
                    "write the column's unit so"
                );
            }
        }
        const std::vector<std::string> known = all_names();
        const auto nearest = key_file::nearest_word(name, known);
        return name_problem(
            key_file::excerpt(table_.names[column]),
            "no column this table may have",
            key_file::listed(known),
            nearest ? "write " + *nearest : ""
        );
    }

    [[nodiscard]] InputProblem name_problem(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    ) const {
        return {
            file_,
            table_.names_line,
            0,
            key,
            found,
            allowed,
            remedy.empty() ? "name the columns as \"flangewright log CASE --template FILE\" does"
                           : remedy};
    }

    [[nodiscard]] std::optional<double> at(Place quantity, std::size_t row) const {
        if (!columns_.index[quantity]) {
            return std::nullopt;
        }
        const double value = table_.columns[*columns_.index[quantity]][row];
        return std::isnan(value) ? std::nullopt : std::optional(columns_.factor[quantity] * value);
    }

    [[nodiscard]] Reading reading_in(std::size_t row) const {
        Reading reading;
        reading.step = static_cast<std::size_t>(*at(step, row));
        reading.station = at(station, row);
        reading.angle = at(angle, row);
        reading.thickness = at(thickness, row);
        reading.before = at(before, row);
        reading.after = at(after, row);
        reading.web_lift = at(web_lift, row);
        reading.is_cracked = at(cracked, row).value_or(0) != 0;
        reading.line = table_.lines[row];
        return reading;
    }

    [[nodiscard]] std::optional<InputProblem> outside(
        const Reading& reading,
        const std::string& key,
        const std::optional<double>& value,
        const std::string& shown,
        std::array<double, 2> range,
        const std::string& allowed
    ) const {
        if (!value || (*value >= range[0] && *value <= range[1])) {
            return std::nullopt;
        }
        return InputProblem{
            file_,
            reading.line,
            0,
            key,
            shown,
            allowed,
            "measure it again, check the unit in the column's name, or leave the cell empty"};
    }

    [[nodiscard]] std::optional<InputProblem> problem_of(const Reading& reading) const {
        const auto mm = [](const std::optional<double>& value) {
            return fmt::format("{:.4g} mm", value.value_or(0));
        };
        const double end = part_.length * (1 + 1e-6) + 0.05;
        const double t = part_.thickness;
        const auto first = [](auto a, auto b) { return a ? a : b; };
        auto problem = outside(
            reading,
            "station",
            reading.station,
            mm(reading.station),
            {-0.05, end},
            fmt::format("0 to {:.4g} mm, the length of the bend line", part_.length)
        );
        problem = first(
            problem,
            outside(
                reading,
                "angle",
                reading.angle,
                fmt::format("{:.4g} deg", units::degrees(reading.angle.value_or(0))),
                {0, units::radians(180)},
                "0 to 180 deg, turned through: 90 is square"
            )
        );
        problem = first(
            problem,
            outside(
                reading,
                "thickness",
                reading.thickness,
                mm(reading.thickness),
                {0.3 * t, 1.5 * t},
                fmt::format("0.3 to 1.5 of the sheet's {:.4g} mm", t)
            )
        );
        problem = first(
            problem,
            outside(
                reading,
                "web_lift",
                reading.web_lift,
                mm(reading.web_lift),
                {0, most_lift},
                fmt::format("0 to {:g} mm", most_lift)
            )
        );
        problem = first(
            problem,
            outside(
                reading,
                "before",
                reading.before,
                mm(reading.before),
                {least_gauge, most_gauge},
                fmt::format("{:g} to {:g} mm", least_gauge, most_gauge)
            )
        );
        return first(problem, marks_problem(reading));
    }

    [[nodiscard]] std::optional<InputProblem> marks_problem(const Reading& reading) const {
        if (reading.after && !reading.before) {
            return InputProblem{
                file_,
                reading.line,
                0,
                "before",
                "nothing, though after is there",
                "the distance of the marks before forming",
                "write it, or leave both empty"};
        }
        if (!reading.has_marks()) {
            return std::nullopt;
        }
        if (!reading.station) {
            return InputProblem{
                file_,
                reading.line,
                0,
                "station",
                "nothing, though marks were measured",
                "the station half way between both marks",
                "write it like 40"};
        }
        return outside(
            reading,
            "after",
            reading.stretch(),
            fmt::format("{:.4g} mm from {:.4g} mm", *reading.after, *reading.before),
            {least_stretch, most_stretch},
            fmt::format("a stretch of {:g} to {:g} %", 100 * least_stretch, 100 * most_stretch)
        );
    }

    [[nodiscard]] static std::vector<std::string> not_measured(const std::vector<Reading>& rows) {
        std::vector<std::string> missing;
        const auto look = [&](const char* name, auto has) {
            if (std::ranges::none_of(rows, has)) {
                missing.emplace_back(name);
            }
        };
        look("angle", [](const Reading& row) { return row.angle.has_value(); });
        look("thickness", [](const Reading& row) { return row.thickness.has_value(); });
        look("edge marks", [](const Reading& row) { return row.has_marks(); });
        look("web lift", [](const Reading& row) { return row.web_lift.has_value(); });
        return missing;
    }

    const CsvTable& table_;
    const std::string& file_;
    const MeasuredPart& part_;
    Columns columns_;
};

/// "2 release", "2"; "release" where only one step is called so.
tensile::WordColumn step_words(const std::vector<std::string>& names) {
    tensile::WordColumn column{"step", {}, ""};
    std::vector<std::string> whole;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto number = static_cast<double>(i);
        whole.push_back(fmt::format("{} {}", i + 1, names[i]));
        column.words.emplace_back(whole.back(), number);
        column.words.emplace_back(std::to_string(i + 1), number);
        if (std::ranges::count(names, names[i]) == 1) {
            column.words.emplace_back(names[i], number);
        }
    }
    column.allowed = key_file::listed(whole);
    return column;
}

} // namespace

Read<Readings>
readings_from(std::string_view text, const std::string& file, const MeasuredPart& part) {
    if (const auto problem = key_file::encoding_problem(text, file)) {
        return tl::unexpected(*problem);
    }
    tensile::CellRules rules;
    rules.may_be_empty = {"cracked"};
    rules.all_may_be_empty = true;
    rules.words = {
        step_words(part.steps), {"cracked", {{"yes", 1}, {"no", 0}}, "yes, no or nothing"}};
    const Read<CsvTable> table = tensile::csv_table(text, file, rules);
    if (!table) {
        return tl::unexpected(table.error());
    }
    return Sheet(*table, file, part).readings();
}

Read<Readings> read_readings(const std::filesystem::path& path, const MeasuredPart& part) {
    const auto text = key_file::read_text_file(path, {"table of readings", 1'000'000});
    if (!text) {
        return tl::unexpected(text.error());
    }
    return readings_from(*text, path.string(), part);
}

} // namespace flangewright::build_log
