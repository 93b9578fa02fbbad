#include "io/key_file/syntax_problem.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/units/written_number.hpp"

#include <algorithm>

namespace flangewright::key_file {

namespace {

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(" \t\r");
    if (begin == std::string_view::npos) {
        return {};
    }
    return text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1);
}

std::string_view line_of(std::string_view text, int line) {
    for (int i = 1; i < line; ++i) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos) {
            return {};
        }
        text.remove_prefix(end + 1);
    }
    return trimmed(text.substr(0, text.find('\n')));
}

std::string shown_line(std::string_view line) {
    return line.empty() ? "the end of the text" : quoted_excerpt(line);
}

bool is_quantity(std::string_view value) {
    const auto split = units::split_number(value);
    return split && !split->unit.empty() && split->unit.find_first_of("#\"'") == std::string::npos;
}

} // namespace

InputProblem
syntax_problem(std::string_view text, const std::string& file, int line, bool is_repeated) {
    const std::string_view where = line_of(text, line);
    const std::size_t equals = where.find('=');
    InputProblem problem{file, line, 1, "text", shown_line(where), "key = value", ""};
    const std::string_view key =
        equals == std::string_view::npos ? std::string_view{} : trimmed(where.substr(0, equals));
    if (!key.empty()) {
        problem.key = excerpt(key);
    }
    const std::string_view value =
        equals == std::string_view::npos ? std::string_view{} : trimmed(where.substr(equals + 1));
    if (is_repeated) {
        problem.allowed = "each key and each [section] once";
        problem.remedy = "delete one of the two";
    } else if (where.starts_with('[') && equals == std::string_view::npos) {
        problem.allowed = "a section such as [sheet]";
        problem.remedy = "close the bracket and leave nothing behind it";
    } else if (equals == std::string_view::npos) {
        problem.remedy = "write it like thickness = \"0.8 mm\", comments after a #";
    } else if (key.empty()) {
        problem.remedy = "write a key before the equals sign";
    } else if (value.empty()) {
        problem.remedy = "write a value after the equals sign";
    } else if (is_quantity(value)) {
        problem.allowed = "a value with a unit in quotes";
        problem.remedy = "write " + problem.key + " = \"" + excerpt(value) + "\"";
    } else if (std::count(value.begin(), value.end(), '"') % 2 == 1) {
        problem.allowed = "text between two quotes";
        problem.remedy = "close the quotes on the same line";
    } else {
        problem.allowed = "a number, or text in quotes";
        problem.remedy = "put words in quotes, lists in [ ] with commas";
    }
    return problem;
}

} // namespace flangewright::key_file
