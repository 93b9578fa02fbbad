#include "io/compare/varied_text.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/value_place.hpp"
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
    if (const std::optional<std::size_t> at = key_file::below_head(whole, section)) {
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
        const std::size_t begin = key_file::offset_of(text, present->place);
        varied = std::string(text.substr(0, begin)) + written(present, setting.value)
            + std::string(text.substr(key_file::end_of_value(text, begin)));
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
