#include "io/key_file/changed_value.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/same_values.hpp"
#include "io/key_file/value_place.hpp"

#include <fmt/format.h>

#include <optional>

namespace flangewright::key_file {

namespace {

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
