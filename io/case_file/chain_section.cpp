// The pieces of a chain: each a line with its length, or an arc with its radius and sweep.
#include "io/case_file/sections.hpp"

#include <fmt/format.h>

#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

constexpr std::array kinds{"line", "concave", "convex"};

/// The one of `line`, `concave` and `convex` that is written; nothing after a problem.
std::optional<std::string> kind_of(TableReader& table) {
    std::vector<std::string> written;
    for (const char* kind : kinds) {
        if (table.has(kind)) {
            written.emplace_back(kind);
        }
    }
    if (written.size() == 1) {
        return written.front();
    }
    const bool has_sweep = table.has("sweep");
    if (!written.empty()) {
        table.object_found(
            written.back(),
            written.front() + " and " + written.back() + " in one piece",
            "one of line, concave and convex in each piece",
            "put each into braces of its own"
        );
    } else if (table.finish() == 0) { // else the unknown key is the problem
        table.object_all(
            has_sweep ? "a sweep without a radius" : "an empty piece",
            "{line = length} or {concave = radius, sweep = degrees} or {convex = radius, sweep = "
            "degrees}",
            "write what the piece is"
        );
    }
    return std::nullopt;
}

std::optional<outline::Piece> read_line(TableReader& table) {
    const std::optional<double> length = table.value(
        {.key = "line",
         .measure = Measure::length,
         .lowest = 0.5,
         .highest = 3000,
         .reason = "the length of the piece",
         .remedy = "check the unit, or leave the piece out"}
    );
    if (table.has("sweep")) {
        table.object(
            "sweep", "no sweep on a straight piece", "delete it, or write concave or convex"
        );
        return std::nullopt;
    }
    return length ? std::optional(outline::Piece{*length, 0}) : std::nullopt;
}

std::optional<outline::Piece> read_arc(TableReader& table, const std::string& kind) {
    const std::optional<double> radius = table.value(
        {.key = kind,
         .measure = Measure::length,
         .lowest = 2,
         .highest = 10'000,
         .reason = "the radius; a larger one is as good as straight",
         .remedy = "check the unit, or write line = length"}
    );
    const std::optional<double> sweep = table.value(
        {.key = "sweep",
         .measure = Measure::angle,
         .lowest = 0.1,
         .highest = 180,
         .reason = "degrees the arc turns through",
         .remedy = "write the degrees; a longer arc as two pieces"}
    );
    if (!radius || !sweep) {
        return std::nullopt;
    }
    return outline::Piece{*radius * *sweep, (kind == "concave" ? 1.0 : -1.0) / *radius};
}

} // namespace

std::vector<ChainPiece> read_pieces(TableReader& table) {
    constexpr std::size_t most_pieces = 200;
    std::optional<std::vector<TableReader>> tables = table.tables("pieces", Need::required);
    std::vector<ChainPiece> pieces;
    if (!tables) {
        return pieces;
    }
    if (tables->size() > most_pieces) {
        table.object("pieces", "at most 200 pieces", "join neighbours that hardly differ");
        return pieces;
    }
    int number = 0;
    for (TableReader& each : *tables) {
        ++number;
        const std::optional<std::string> kind = kind_of(each);
        if (!kind) {
            continue;
        }
        const std::optional<outline::Piece> piece =
            *kind == "line" ? read_line(each) : read_arc(each, *kind);
        each.finish();
        if (piece) {
            pieces.push_back({*piece, fmt::format("piece {}", number), each, *kind});
        }
    }
    return pieces;
}

} // namespace flangewright::case_file
