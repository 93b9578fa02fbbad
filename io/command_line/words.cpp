#include "io/command_line/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <string_view>

namespace flangewright::command_line {

std::string line_for(const OutsideProblem& problem) {
    return fmt::format("trouble {} ({}): {}", problem.doing, problem.object, problem.remedy);
}

std::string lines_for(const std::vector<key_file::InputProblem>& problems) {
    std::string text;
    for (const key_file::InputProblem& problem : problems) {
        text += key_file::line_for(problem) + "\n";
    }
    return text
        + (problems.size() == 1
               ? "1 problem; nothing was computed.\n"
               : fmt::format("{} problems; nothing was computed.\n", problems.size()));
}

std::string caution() {
    return "A forming estimate, not approved data: the drawing, the maker's data, local rules and\n"
           "licensed people come first. Prove it on a coupon of the same sheet and edge finish.\n";
}

std::string as_lines(const std::string& text, std::size_t width) {
    constexpr std::string_view inset = "  ";
    std::string lines;
    std::string line;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        if (!line.empty() && inset.size() + line.size() + 1 + word.size() > width) {
            lines += std::string(inset) + line + "\n";
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
    }
    return line.empty() ? lines : lines + std::string(inset) + line + "\n";
}

std::string as_columns(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const std::vector<std::string>& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t i = 0; i < row.size(); ++i) {
            widths[i] = std::max(widths[i], row[i].size());
        }
    }
    std::string text;
    for (const std::vector<std::string>& row : rows) {
        std::string line = " ";
        for (std::size_t i = 0; i < row.size(); ++i) {
            line += " " + fmt::format("{:<{}}", row[i], widths[i]) + " ";
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

} // namespace flangewright::command_line
