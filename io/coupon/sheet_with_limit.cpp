#include "io/coupon/sheet_with_limit.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/same_values.hpp"
#include "io/key_file/written_text.hpp"
#include "io/sheet_library/sheet_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <vector>

namespace flangewright::coupon {

namespace {

using key_file::Document;
using key_file::InputProblem;
using key_file::Node;

constexpr std::string_view section = "edge_limit";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    return text;
}

std::string_view without_indent(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    return line;
}

/// "filed = ..." and nothing but a comment behind it, as far as one line can tell.
bool is_line_of(std::string_view line, std::string_view key) {
    line = without_indent(line);
    return line.starts_with(key) && without_indent(line.substr(key.size())).starts_with('=');
}

std::string written(const MeasuredLimit& limit) {
    return fmt::format(
        R"({} = {{ value = "{:.4g} %", grade = "coupon", source = {} }})",
        material::word_for(limit.finish),
        100 * limit.stretch,
        key_file::quoted(limit.source)
    );
}

/// The edit by lines; nothing where the text is not laid out so.
std::optional<std::string>
edited(const std::string& text, const Document& document, const MeasuredLimit& limit) {
    std::vector<std::string> lines = lines_of(text);
    const std::string word = material::word_for(limit.finish);
    const Node::Member* limits = document.root.member(section);
    if (limits == nullptr) {
        lines.insert(lines.end(), {"", fmt::format("[{}]", section), written(limit)});
        return joined(lines);
    }
    if (const Node::Member* old = limits->value.member(word)) {
        const auto index = static_cast<std::size_t>(old->place.line - 1);
        if (index >= lines.size() || !is_line_of(lines[index], word)) {
            return std::nullopt;
        }
        lines[index] = written(limit);
        return joined(lines);
    }
    const auto head = std::ranges::find_if(lines, [](const std::string& line) {
        return without_indent(line).starts_with(fmt::format("[{}]", section));
    });
    if (head == lines.end()) {
        return std::nullopt;
    }
    lines.insert(head + 1, written(limit));
    return joined(lines);
}

/// Without the limit, and without the section where nothing else is in it.
Node bare_of(Node root, const std::string& word) {
    for (Node::Member& member : root.members) {
        if (member.key == section) {
            std::erase_if(member.value.members, [&word](const Node::Member& each) {
                return each.key == word;
            });
        }
    }
    std::erase_if(root.members, [](const Node::Member& member) {
        return member.key == section && member.value.members.empty();
    });
    return root;
}

InputProblem other_form(const std::string& file, const MeasuredLimit& limit, int line) {
    const std::string word = material::word_for(limit.finish);
    return {
        file,
        line,
        0,
        fmt::format("{}.{}", section, word),
        "an edge limit in a form that can't be replaced alone",
        fmt::format("a line {} = ... below [{}]", word, section),
        "write it so; nothing was changed"};
}

} // namespace

Result<std::string, InputProblem>
sheet_with_limit(const std::string& text, const std::string& file, const MeasuredLimit& limit) {
    const auto before = key_file::document_from(text, file);
    const sheet_library::SheetFile sheet = sheet_library::sheet_from(before);
    if (!sheet.sheet) {
        return tl::unexpected(sheet.problems.front());
    }
    const std::string word = material::word_for(limit.finish);
    const Node::Member* limits = before->root.member(section);
    const InputProblem problem =
        other_form(file, limit, limits == nullptr ? 0 : limits->place.line);
    const std::optional<std::string> changed = edited(text, *before, limit);
    if (!changed) {
        return tl::unexpected(problem);
    }
    // Read again: whatever the form, nothing but this one limit may have changed.
    const auto after = key_file::document_from(*changed, file);
    const bool is_kept =
        after && key_file::is_same(bare_of(before->root, word), bare_of(after->root, word));
    if (!is_kept || !sheet_library::sheet_from(after).sheet) {
        return tl::unexpected(problem);
    }
    return *changed;
}

} // namespace flangewright::coupon
