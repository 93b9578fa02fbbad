// The only file that includes the TOML library.
#include "io/key_file/document.hpp"

#include "io/key_file/syntax_problem.hpp"
#include "io/key_file/text_file.hpp"
#include "io/units/written_number.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>

namespace flangewright::key_file {

namespace {

Place place_of(const toml::source_region& region) {
    return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

std::string number_text(double value) {
    return fmt::format("{}", value);
}

Node node_from(const toml::node& source);

void fill_list(Node& node, const toml::array& source) {
    node.kind = Kind::list;
    for (const toml::node& item : source) {
        node.items.push_back(node_from(item));
    }
}

void fill_table(Node& node, const toml::table& source) {
    node.kind = Kind::table;
    for (const auto& [key, value] : source) {
        node.members.push_back({std::string(key.str()), place_of(key.source()), node_from(value)});
    }
    // The library sorts by name; users read from top to bottom.
    std::stable_sort(
        node.members.begin(),
        node.members.end(),
        [](const Node::Member& a, const Node::Member& b) {
            return a.place.line < b.place.line
                || (a.place.line == b.place.line && a.place.column < b.place.column);
        }
    );
}

Node node_from(const toml::node& source) {
    Node node;
    node.place = place_of(source.source());
    if (const auto* table = source.as_table()) {
        fill_table(node, *table);
    } else if (const auto* list = source.as_array()) {
        fill_list(node, *list);
    } else if (const auto* text = source.as_string()) {
        node.kind = Kind::text;
        node.text = text->get();
    } else if (const auto* whole = source.as_integer()) {
        node.kind = Kind::number;
        node.number = static_cast<double>(whole->get());
        node.text = fmt::format("{}", whole->get());
    } else if (const auto* decimal = source.as_floating_point()) {
        node.kind = Kind::number;
        node.number = decimal->get();
        node.text = number_text(decimal->get());
    } else if (const auto* truth = source.as_boolean()) {
        node.kind = Kind::truth;
        node.text = truth->get() ? "true" : "false";
    } else {
        node.text = "a date or a time";
    }
    return node;
}

} // namespace

const Node::Member* Node::member(std::string_view key) const {
    const auto found = std::find_if(members.begin(), members.end(), [key](const Member& member) {
        return member.key == key;
    });
    return found == members.end() ? nullptr : &*found;
}

Result<Document, InputProblem> document_from(std::string_view text, const std::string& file) {
    if (const std::optional<InputProblem> problem = encoding_problem(text, file)) {
        return tl::unexpected(*problem);
    }
    try {
        return Document{file, node_from(toml::parse(text))};
    } catch (const toml::parse_error& error) {
        const bool is_repeated = error.description().find("redefine") != std::string_view::npos;
        return tl::unexpected(syntax_problem(text, file, place_of(error.source()).line, is_repeated)
        );
    }
}

Result<Document, InputProblem> read_document(const std::filesystem::path& path) {
    const Result<std::string, InputProblem> text = read_text_file(path);
    if (!text) {
        return tl::unexpected(text.error());
    }
    return document_from(*text, path.string());
}

} // namespace flangewright::key_file
