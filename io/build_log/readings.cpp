#include "io/build_log/readings.hpp"

#include "io/build_log/reading_columns.hpp"
#include "io/build_log/reading_rules.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/key_file/text_file.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flangewright::build_log {

namespace {

using key_file::InputProblem;
using tensile::CsvTable;
template <typename T>
using Read = Result<T, InputProblem>;

Reading reading_in(const CsvTable& table, const ReadingColumns& columns, std::size_t row) {
    using enum Quantity;
    const auto at = [&](Quantity quantity) { return columns.at(quantity, table, row); };
    Reading reading;
    reading.step = static_cast<std::size_t>(*at(step)); // no cell of it is empty
    reading.station = at(station);
    reading.angle = at(angle);
    reading.thickness = at(thickness);
    reading.before = at(before);
    reading.after = at(after);
    reading.web_lift = at(web_lift);
    reading.is_cracked = at(cracked).value_or(0) != 0;
    reading.line = table.lines[row];
    return reading;
}

std::vector<std::string> not_measured(const std::vector<Reading>& rows) {
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

Read<Readings> readings_in(
    const CsvTable& table,
    const ReadingColumns& columns,
    const MeasuredPart& part,
    const std::string& file
) {
    Readings all;
    for (std::size_t row = 0; row < table.lines.size(); ++row) {
        const Reading reading = reading_in(table, columns, row);
        if (const auto problem = problem_of(reading, part, file)) {
            return tl::unexpected(*problem);
        }
        if (reading.angle || reading.thickness || reading.after || reading.web_lift) {
            all.rows.push_back(reading);
        }
    }
    if (all.rows.empty()) {
        return tl::unexpected(InputProblem{
            file,
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
    const Read<ReadingColumns> columns = reading_columns(*table, file);
    if (!columns) {
        return tl::unexpected(columns.error());
    }
    return readings_in(*table, *columns, part, file);
}

Read<Readings> read_readings(const std::filesystem::path& path, const MeasuredPart& part) {
    const auto text = key_file::read_text_file(path, {"table of readings", 1'000'000});
    if (!text) {
        return tl::unexpected(text.error());
    }
    return readings_from(*text, path.string(), part);
}

} // namespace flangewright::build_log
