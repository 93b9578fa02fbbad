#include "io/key_file/same_values.hpp"

#include <algorithm>

namespace flangewright::key_file {

bool is_same(const Node& a, const Node& b) {
    const auto same_member = [](const Node::Member& one, const Node::Member& other) {
        return one.key == other.key && is_same(one.value, other.value);
    };
    return a.kind == b.kind && a.text == b.text && a.number == b.number
        && std::ranges::equal(a.items, b.items, is_same)
        && std::ranges::equal(a.members, b.members, same_member);
}

} // namespace flangewright::key_file
