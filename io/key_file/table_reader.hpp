// Takes values out of one section: checks kind, unit and range, and notices keys nobody asked for.
#pragma once

#include "io/key_file/reading.hpp"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace flangewright::key_file {

/// What a value measures; decides which units may be written.
enum class Measure {
    number,
    length, ///< to mm
    stress, ///< to MPa
    strain, ///< a plain number or "0.1 %", to a plain number
    percent, ///< "16 %", to a plain number
    angle, ///< degrees, to rad
};

/// Must a key be there?
enum class Need { required, optional };

/// What is allowed for one key. Limits in mm, MPa, plain numbers; angles in degrees.
struct ValueRule {
    std::string key;
    Measure measure = Measure::number;
    double lowest = 0;
    double highest = 0;
    std::string reason = {}; ///< why these limits: "thinner tears, thicker is plate"
    std::string remedy = {}; ///< order to the user
    Need need = Need::required;
};

/// One section of a file. Problems go to the Reading; values come back only when they are right.
class TableReader {
public:
    TableReader(Reading& reading, const Node& table, Place place, std::string path);

    [[nodiscard]] bool has(const std::string& key);
    [[nodiscard]] bool holds_text(const std::string& key);
    [[nodiscard]] bool holds_list(const std::string& key);
    [[nodiscard]] bool holds_table(const std::string& key);
    std::optional<double> value(const ValueRule& rule);
    /// A list of values, or one value as a list of one; each against the rule.
    std::optional<std::vector<double>> values(const ValueRule& rule);
    /// A list of pairs of values in brackets; each value against the rule.
    std::optional<std::vector<std::array<double, 2>>> pairs(const ValueRule& rule);
    /// The same with a rule of its own for each of the two; the key is the second's.
    std::optional<std::vector<std::array<double, 2>>>
    pairs(const ValueRule& first, const ValueRule& second);
    std::optional<std::string> text(const std::string& key, Need need);
    /// One of the words, letters of either case.
    std::optional<std::string>
    word(const std::string& key, std::span<const std::string> words, Need need);
    /// `true` or `false`; false when it is not there.
    bool flag(const std::string& key);
    std::optional<std::vector<std::string>> texts(const std::string& key, Need need);
    std::optional<TableReader> table(const std::string& key, Need need);
    /// A list of tables in braces, each with its own place: "bend_line.pieces[2]".
    std::optional<std::vector<TableReader>> tables(const std::string& key, Need need);

    /// A problem of this key, found as written (or of the section, when the key is not there).
    void object(const std::string& key, const std::string& allowed, const std::string& remedy);
    /// The same with our own words for what was found.
    void object_found(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    );
    /// A problem of this section as a whole.
    void
    object_all(const std::string& found, const std::string& allowed, const std::string& remedy);
    /// Hands the keys nobody asked for to the Reading and says how many there were. Call once, when
    /// all was asked.
    int finish();

    [[nodiscard]] Reading& reading() { return *reading_; }
    [[nodiscard]] std::string path_to(const std::string& key) const;

private:
    const Node*
    ask(const std::string& key, Need need, const std::string& kind = {}, std::string allowed = {});
    const Node* ask(const ValueRule& rule, const std::string& kind_of_list = {});
    std::optional<double> checked(const Node& node, const std::string& path, const ValueRule& rule);

    Reading* reading_;
    const Node* table_;
    Place place_;
    std::string path_;
    std::vector<std::string> asked_;
};

} // namespace flangewright::key_file
