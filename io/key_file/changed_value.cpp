#include "io/key_file/changed_value.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/same_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>

namespace flangewright::key_file {

namespace {

/// Where a place lies in the text; columns count characters, of which some have several bytes.
std::size_t offset_of(std::string_view text, Place place) {
    std::size_t at = 0;
    for (int line = 1; line < place.line && at < text.size(); ++at) {
        line += text[at] == '\n' ? 1 : 0;
    }
    for (int column = 1; column < place.column && at < text.size(); ++column) {
        do {
            ++at;
        } while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80);
    }
    return at;
}

/// Past the closing quote; a text of several lines has three of them.
std::size_t end_of_text(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const std::string three(3, quote);
    if (text.substr(at).starts_with(three)) {
        const std::size_t end = text.find(three, at + 3);
        return end == std::string_view::npos ? text.size() : end + 3;
    }
    for (++at; at < text.size() && text[at] != quote; ++at) {
        at += quote == '"' && text[at] == '\\' ? 1 : 0;
    }
    return std::min(at + 1, text.size());
}

bool begins(char c, std::string_view ones) {
    return ones.find(c) != std::string_view::npos;
}

std::size_t end_of_value(std::string_view text, std::size_t at) {
    if (at < text.size() && begins(text[at], "\"'")) {
        return end_of_text(text, at);
    }
    if (at >= text.size() || !begins(text[at], "[{")) {
        return std::min(text.find_first_of(" \t\r\n,]}#", at), text.size());
    }
    int depth = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (begins(c, "\"'")) {
            at = end_of_text(text, at);
            continue;
        }
        at = c == '#' ? std::min(text.find('\n', at), text.size() - 1) : at;
        depth += begins(c, "[{") ? 1 : (begins(c, "]}") ? -1 : 0);
        ++at;
        if (depth == 0) {
            break;
        }
    }
    return at;
}

std::string_view without_indent(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    return line;
}

/// Past the line "[section]"; nothing where there is none.
std::optional<std::size_t> below_head(std::string_view text, const std::string& section) {
    const std::string head = fmt::format("[{}]", section);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (without_indent(text.substr(at, end - at)).starts_with(head)) {
            return std::min(end + 1, text.size());
        }
        at = end + 1;
    }
    return std::nullopt;
}

std::optional<std::string>
edited(std::string text, const Document& document, const KeyName& name, const std::string& value) {
    const Node::Member* section = document.root.member(name.section);
    const Node::Member* old = section == nullptr ? nullptr : section->value.member(name.key);
    if (old != nullptr) {
        const std::size_t begin = offset_of(text, old->value.place);
        return text.replace(begin, end_of_value(text, begin) - begin, value);
    }
    const std::optional<std::size_t> at = below_head(text, name.section);
    if (!at) {
        return std::nullopt;
    }
    const bool has_end = *at > 0 && text[*at - 1] == '\n';
    return text.insert(*at, fmt::format("{}{} = {}\n", has_end ? "" : "\n", name.key, value));
}

Node without_key(Node root, const KeyName& name) {
    for (Node::Member& member : root.members) {
        if (member.key == name.section) {
            std::erase_if(member.value.members, [&name](const Node::Member& each) {
                return each.key == name.key;
            });
        }
    }
    return root;
}

} // namespace

Result<std::string, InputProblem> with_value(
    const std::string& text,
    const std::string& file,
    const KeyName& name,
    const std::string& written
) {
    const Result<Document, InputProblem> before = document_from(text, file);
    if (!before) {
        return tl::unexpected(before.error());
    }
    const InputProblem problem{
        file,
        0,
        0,
        name.section + "." + name.key,
        "a section in a form that the value can't be put into alone",
        fmt::format("a line [{}] and the keys below it", name.section),
        "write it so; nothing was changed"};
    const std::optional<std::string> changed = edited(text, *before, name, written);
    if (!changed) {
        return tl::unexpected(problem);
    }
    const Result<Document, InputProblem> after = document_from(*changed, file);
    const bool is_kept =
        after && is_same(without_key(before->root, name), without_key(after->root, name));
    return is_kept ? Result<std::string, InputProblem>(*changed) : tl::unexpected(problem);
}

} // namespace flangewright::key_file
