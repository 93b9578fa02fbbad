#include "io/compare/varied_text.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/written_text.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>
#include <vector>

namespace flangewright::compare {

namespace {

using key_file::InputProblem;
using key_file::Kind;
using key_file::Node;

/// A name, and for "pieces[2]" the number behind it; 0 without.
struct Part {
    std::string name;
    std::size_t number = 0;
};

std::vector<Part> parts_of(const std::string& key) {
    std::vector<Part> parts;
    std::size_t begin = 0;
    while (begin <= key.size()) {
        const std::size_t end = std::min(key.find('.', begin), key.size());
        Part part{key.substr(begin, end - begin)};
        const std::size_t bracket = part.name.find('[');
        if (bracket != std::string::npos && part.name.ends_with(']')) {
            const char* digits = part.name.data() + bracket + 1;
            const char* last = part.name.data() + part.name.size() - 1;
            if (std::from_chars(digits, last, part.number).ptr != last) {
                part.number = 0;
            }
        }
        if (part.number > 0) {
            part.name.resize(bracket);
        }
        parts.push_back(part);
        begin = end + 1;
    }
    return parts;
}

const Node* node_at(const Node& root, const std::vector<Part>& parts) {
    const Node* node = &root;
    for (const Part& part : parts) {
        const Node::Member* member = node->member(part.name);
        node = member == nullptr ? nullptr : &member->value;
        if (node != nullptr && part.number > 0) {
            node = part.number <= node->items.size() ? &node->items[part.number - 1] : nullptr;
        }
        if (node == nullptr) {
            return nullptr;
        }
    }
    return node;
}

/// Digits with or without sign, point and exponent, as the key file's rules have them.
bool is_plain_number(std::string_view text) {
    const auto digits = [&text] {
        const std::size_t n = std::min(text.find_first_not_of("0123456789"), text.size());
        text.remove_prefix(n);
        return n;
    };
    const auto sign = [&text] {
        if (text.starts_with('+') || text.starts_with('-')) {
            text.remove_prefix(1);
        }
    };
    sign();
    const bool has_leading_zero =
        text.size() > 1 && text[0] == '0' && std::isdigit(static_cast<unsigned char>(text[1])) != 0;
    if (has_leading_zero || digits() == 0) {
        return false;
    }
    if (text.starts_with('.')) {
        text.remove_prefix(1);
        if (digits() == 0) {
            return false;
        }
    }
    if (text.starts_with('e') || text.starts_with('E')) {
        text.remove_prefix(1);
        sign();
        return digits() > 0 && text.empty();
    }
    return text.empty();
}

std::string written(const Node* present, const std::string& value) {
    const bool is_bare = is_plain_number(value) || value == "true" || value == "false";
    const bool was_text = present != nullptr && present->kind == Kind::text;
    return is_bare && !was_text ? value : key_file::quoted(value);
}

/// Where a place lies in the text; columns count characters, not bytes.
std::size_t offset_of(std::string_view text, const key_file::Place& place) {
    std::size_t at = 0;
    for (int line = 1; line < place.line && at < text.size(); ++line) {
        at = std::min(text.find('\n', at), text.size() - 1) + 1;
    }
    for (int column = 1; column < place.column && at < text.size(); ++column) {
        do {
            ++at;
        } while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U);
    }
    return at;
}

/// One past the last byte of the single value that begins there.
std::size_t end_of_value(std::string_view text, std::size_t begin) {
    const char first = begin < text.size() ? text[begin] : '\0';
    if (first != '"' && first != '\'') {
        return std::min(text.find_first_of(" \t\r\n,]}#", begin), text.size());
    }
    std::size_t at = begin + 1;
    while (at < text.size() && text[at] != first) {
        at += first == '"' && text[at] == '\\' ? 2 : 1;
    }
    return std::min(at + 1, text.size());
}

/// "[block]" gives "block"; nothing for a line that begins no section.
std::string_view section_of(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    const std::size_t end = line.find(']');
    if (!line.starts_with('[') || line.starts_with("[[") || end == std::string_view::npos) {
        return {};
    }
    return line.substr(1, end - 1);
}

/// Just behind the line that begins the section.
std::optional<std::size_t> place_in_section(std::string_view text, std::string_view section) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (section_of(text.substr(at, end - at)) == section) {
            return std::min(end + 1, text.size());
        }
        at = end + 1;
    }
    return std::nullopt;
}

InputProblem
problem(const std::string& file, const Setting& setting, std::string found, std::string remedy) {
    return {
        file,
        0,
        0,
        key_file::excerpt(setting.key),
        std::move(found),
        "the key of a single value: a number, a text, true or false",
        std::move(remedy)};
}

/// The text with the key added to its section, which is added where it is missing, too.
std::string with_line(const std::string& text, const Setting& setting) {
    const std::size_t point = setting.key.rfind('.');
    const std::string name =
        point == std::string::npos ? setting.key : setting.key.substr(point + 1);
    const std::string line = name + " = " + written(nullptr, setting.value) + "\n";
    if (point == std::string::npos) {
        return line + text;
    }
    const std::string section = setting.key.substr(0, point);
    const std::string ending = text.empty() || text.ends_with('\n') ? "" : "\n";
    const std::string whole = text + ending;
    if (const std::optional<std::size_t> at = place_in_section(whole, section)) {
        return whole.substr(0, *at) + line + whole.substr(*at);
    }
    return whole + "\n[" + section + "]\n" + line;
}

std::optional<InputProblem> key_problem(const Setting& setting, const std::string& file) {
    const bool is_plain = !setting.key.empty()
        && setting.key.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                         "0123456789_-.[]"
           ) == std::string::npos;
    if (is_plain) {
        return std::nullopt;
    }
    return problem(file, setting, "something else than a key", "write it like block.nose_radius");
}

} // namespace

Result<std::string, InputProblem>
varied_text(std::string_view text, const Setting& setting, const std::string& file) {
    if (const auto bad_key = key_problem(setting, file)) {
        return tl::unexpected(*bad_key);
    }
    const Result<key_file::Document, InputProblem> document = key_file::document_from(text, file);
    if (!document) {
        return tl::unexpected(document.error());
    }
    const std::vector<Part> parts = parts_of(setting.key);
    const Node* present = node_at(document->root, parts);
    std::string varied;
    if (present == nullptr) {
        varied = with_line(std::string(text), setting);
    } else if (present->kind == Kind::list || present->kind == Kind::table) {
        return tl::unexpected(problem(
            file,
            setting,
            present->kind == Kind::list ? "a list of values" : "a section",
            "name a key below it, or write a case file for each variant and compare those"
        ));
    } else {
        const std::size_t begin = offset_of(text, present->place);
        varied = std::string(text.substr(0, begin)) + written(present, setting.value)
            + std::string(text.substr(end_of_value(text, begin)));
    }
    // Read again: a form of writing that was not foreseen must not pass unnoticed.
    const auto again = key_file::document_from(varied, file);
    const Node* changed = again ? node_at(again->root, parts) : nullptr;
    if (changed == nullptr || (changed->kind == Kind::text && changed->text != setting.value)) {
        return tl::unexpected(problem(
            file,
            setting,
            present == nullptr ? "no place to add it" : "a value in a form that can't be changed",
            "write the key into the case file, on a line of its own below its [section]"
        ));
    }
    return varied;
}

std::string text_at(std::string_view text, const std::string& key) {
    const auto document = key_file::document_from(text, "case");
    const Node* node = document ? node_at(document->root, parts_of(key)) : nullptr;
    return node != nullptr && node->kind == Kind::text ? node->text : "";
}

} // namespace flangewright::compare
