// A file of keys and values (TOML) as plain data with places, free of the library that read it.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace flangewright::key_file {

/// Line and column, from 1.
struct Place {
    int line = 0;
    int column = 0;
};

/// What a value is.
enum class Kind { text, number, truth, list, table, other };

/// A value, and for lists and tables all that is in it.
struct Node {
    struct Member;

    Kind kind = Kind::other;
    Place place;
    std::string text; ///< of a text; of a number or truth as it would be written
    double number = 0;
    std::vector<Node> items; ///< of a list
    std::vector<Member> members; ///< of a table, in the file's order

    [[nodiscard]] const Member* member(std::string_view key) const;
};

/// One key of a table.
struct Node::Member {
    std::string key;
    Place place;
    Node value;
};

/// The whole file, a table.
struct Document {
    std::string file;
    Node root;
};

/// Reads a file. Fails: when it is missing, not readable, too large, not UTF-8 text or not TOML,
/// always with one problem, in our own words.
[[nodiscard]] Result<Document, InputProblem> read_document(const std::filesystem::path& path);

/// The same for a text at hand; `file` is only its name. Fails: as above.
[[nodiscard]] Result<Document, InputProblem>
document_from(std::string_view text, const std::string& file);

} // namespace flangewright::key_file
