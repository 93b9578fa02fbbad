#include "io/key_file/table_reader.hpp"

#include "io/key_file/measure.hpp"
#include "io/key_file/nearest_word.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::key_file {

namespace {

std::string lower_case(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return text;
}

// Limits are written in rounded numbers; a value a millionth beyond is on the limit.
bool is_within(double value, const ValueRule& rule) {
    const double slack = 1e-9 * std::max(std::abs(rule.lowest), std::abs(rule.highest));
    return value >= rule.lowest - slack && value <= rule.highest + slack; // false for NaN
}

// Places in lists are all alike: "bend_line.pieces[]".
std::string without_numbers(const std::string& path) {
    std::string plain;
    for (const char c : path) {
        const bool is_in_brackets = !plain.empty() && plain.back() == '[' && c != ']';
        if (!is_in_brackets) {
            plain += c;
        }
    }
    return plain;
}

} // namespace

TableReader::TableReader(Reading& reading, const Node& table, Place place, std::string path)
    : reading_(&reading), table_(&table), place_(place), path_(std::move(path)) {}

std::string TableReader::path_to(const std::string& key) const {
    return path_.empty() ? key : path_ + "." + key;
}

const Node*
TableReader::ask(const std::string& key, Need need, const std::string& kind, std::string allowed) {
    reading_->add_asked(
        {without_numbers(path_), key, kind, std::move(allowed), need == Need::required}
    );
    if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) {
        asked_.push_back(key);
    }
    const Node::Member* member = table_->member(key);
    if (member != nullptr) {
        return &member->value;
    }
    if (need == Need::required) {
        reading_->add(
            place_,
            path_to(key),
            "nothing",
            "a value, since there is no safe default",
            "add a line " + key + " = ..." + (path_.empty() ? " at the top" : " in [" + path_ + "]")
        );
    }
    return nullptr;
}

const Node* TableReader::ask(const ValueRule& rule, const std::string& kind_of_list) {
    ValueRule bare = rule;
    bare.reason.clear();
    const std::string kind = word_for(rule.measure);
    return ask(
        rule.key,
        rule.need,
        kind_of_list.empty() ? kind : fmt::format("{}: {}", kind_of_list, kind),
        range_text(bare, reading_->unit)
    );
}

bool TableReader::has(const std::string& key) {
    return ask(key, Need::optional) != nullptr;
}

bool TableReader::holds_text(const std::string& key) {
    const Node* node = ask(key, Need::optional);
    return node != nullptr && node->kind == Kind::text;
}

bool TableReader::holds_list(const std::string& key) {
    const Node* node = ask(key, Need::optional);
    return node != nullptr && node->kind == Kind::list;
}

bool TableReader::holds_table(const std::string& key) {
    const Node* node = ask(key, Need::optional);
    return node != nullptr && node->kind == Kind::table;
}

std::optional<double>
TableReader::checked(const Node& node, const std::string& path, const ValueRule& rule) {
    const units::LengthUnit unit = reading_->unit;
    const std::string found = as_written(node, rule.measure, unit);
    const units::Written value = measured(node, rule.measure, unit);
    if (!value) {
        reading_->add(node.place, path, found, value.error().allowed, value.error().remedy);
        return std::nullopt;
    }
    if (!is_within(*value, rule)) {
        reading_->add(node.place, path, found, range_text(rule, unit), rule.remedy);
        return std::nullopt;
    }
    return rule.measure == Measure::angle ? units::radians(*value) : *value;
}

std::optional<double> TableReader::value(const ValueRule& rule) {
    const Node* node = ask(rule);
    return node == nullptr ? std::nullopt : checked(*node, path_to(rule.key), rule);
}

std::optional<std::vector<double>> TableReader::values(const ValueRule& rule) {
    const Node* node = ask(rule, "one or a list");
    if (node == nullptr) {
        return std::nullopt;
    }
    const std::string path = path_to(rule.key);
    if (node->kind != Kind::list) {
        const std::optional<double> single = checked(*node, path, rule);
        return single ? std::optional(std::vector<double>{*single}) : std::nullopt;
    }
    std::vector<double> list;
    for (const Node& item : node->items) {
        const std::string place = fmt::format("{}[{}]", path, &item - node->items.data() + 1);
        if (const std::optional<double> one = checked(item, place, rule)) {
            list.push_back(*one);
        }
    }
    return list.size() == node->items.size() ? std::optional(list) : std::nullopt;
}

std::optional<std::vector<std::array<double, 2>>> TableReader::pairs(const ValueRule& rule) {
    return pairs(rule, rule);
}

std::optional<std::vector<std::array<double, 2>>>
TableReader::pairs(const ValueRule& first, const ValueRule& second) {
    const ValueRule& rule = second;
    const Node* node = ask(rule, "pairs");
    if (node == nullptr) {
        return std::nullopt;
    }
    if (node->kind != Kind::list) {
        object(rule.key, "a list of pairs", "write it like [ [0, 0], [10, 2.5] ]");
        return std::nullopt;
    }
    std::vector<std::array<double, 2>> list;
    bool is_good = true;
    for (const Node& item : node->items) {
        const std::string place = fmt::format("{}[{}]", path_to(rule.key), list.size() + 1);
        std::array<double, 2>& pair = list.emplace_back();
        if (item.kind != Kind::list || item.items.size() != pair.size()) {
            const std::string found = as_written(item, rule.measure, reading_->unit);
            reading_->add(item.place, place, found, "a pair [x, y]", "write both values");
            return std::nullopt; // a list that was not meant as pairs has no other problem
        }
        for (std::size_t i = 0; i < pair.size(); ++i) {
            const std::optional<double> value =
                checked(item.items[i], place, i == 0 ? first : second);
            is_good = is_good && value.has_value();
            pair[i] = value.value_or(0);
        }
    }
    return is_good ? std::optional(list) : std::nullopt;
}

std::optional<std::string> TableReader::text(const std::string& key, Need need) {
    const Node* node = ask(key, need, "text");
    if (node == nullptr) {
        return std::nullopt;
    }
    if (node->kind != Kind::text) {
        object(key, "text in quotes", "put it in quotes");
        return std::nullopt;
    }
    return node->text;
}

std::optional<std::string>
TableReader::word(const std::string& key, std::span<const std::string> words, Need need) {
    ask(key, Need::optional, "word", listed(words));
    const std::optional<std::string> written = text(key, need);
    if (!written) {
        return std::nullopt;
    }
    const std::string meant = lower_case(*written);
    if (std::find(words.begin(), words.end(), meant) != words.end()) {
        return meant;
    }
    const std::optional<std::string> nearest = nearest_word(meant, words);
    object(
        key, listed(words), nearest ? "write \"" + *nearest + "\"" : "choose one of these words"
    );
    return std::nullopt;
}

bool TableReader::flag(const std::string& key) {
    const Node* node = ask(key, Need::optional, "true or false");
    if (node == nullptr) {
        return false;
    }
    if (node->kind != Kind::truth) {
        object(key, "true or false", "write true or false, without quotes");
        return false;
    }
    return node->text == "true";
}

std::optional<std::vector<std::string>> TableReader::texts(const std::string& key, Need need) {
    const Node* node = ask(key, need, "list of words");
    if (node == nullptr) {
        return std::nullopt;
    }
    std::vector<std::string> list;
    for (const Node& item : node->items) {
        if (item.kind == Kind::text) {
            list.push_back(item.text);
        }
    }
    if (node->kind != Kind::list || list.size() != node->items.size()) {
        object(key, "a list of words in quotes", "write it like [\"first\", \"second\"]");
        return std::nullopt;
    }
    return list;
}

std::optional<TableReader> TableReader::table(const std::string& key, Need need) {
    reading_->add_asked({without_numbers(path_), key, "section", "", need == Need::required});
    const Node* node = ask(key, Need::optional);
    if (node == nullptr) {
        if (need == Need::required) {
            reading_->add(
                place_,
                path_to(key),
                "nothing",
                "a section [" + path_to(key) + "]",
                "add the section; docs/case-file.md shows what goes into it"
            );
        }
        return std::nullopt;
    }
    if (node->kind != Kind::table) {
        object(
            key, "a section [" + path_to(key) + "]", "write it as a section with its keys below"
        );
        return std::nullopt;
    }
    return TableReader(*reading_, *node, table_->member(key)->place, path_to(key));
}

std::optional<std::vector<TableReader>> TableReader::tables(const std::string& key, Need need) {
    const Node* node = ask(key, need, "list of sections in braces");
    if (node == nullptr) {
        return std::nullopt;
    }
    std::vector<TableReader> list;
    for (const Node& item : node->items) {
        if (item.kind == Kind::table) {
            const std::string path = fmt::format("{}[{}]", path_to(key), list.size() + 1);
            list.emplace_back(*reading_, item, item.place, path);
        }
    }
    if (node->kind != Kind::list || list.empty() || list.size() != node->items.size()) {
        object(key, "a list of tables in braces", "write it like [ {...}, {...} ]");
        return std::nullopt;
    }
    return list;
}

void TableReader::object_all(
    const std::string& found, const std::string& allowed, const std::string& remedy
) {
    reading_->add(place_, path_, found, allowed, remedy);
}

void TableReader::object(
    const std::string& key, const std::string& allowed, const std::string& remedy
) {
    const Node::Member* member = table_->member(key);
    object_found(
        key,
        member == nullptr ? "nothing" : as_written(member->value, Measure::number, reading_->unit),
        allowed,
        remedy
    );
}

void TableReader::object_found(
    const std::string& key,
    const std::string& found,
    const std::string& allowed,
    const std::string& remedy
) {
    const Node::Member* member = table_->member(key);
    reading_->add(member == nullptr ? place_ : member->place, path_to(key), found, allowed, remedy);
}

int TableReader::finish() {
    int n_unknown = 0;
    for (const std::string& key : asked_) {
        reading_->add_known({path_, key, place_});
    }
    for (const Node::Member& member : table_->members) {
        if (std::find(asked_.begin(), asked_.end(), member.key) == asked_.end()) {
            reading_->add_unknown({path_, member.key, member.place});
            ++n_unknown;
        }
    }
    return n_unknown;
}

} // namespace flangewright::key_file
