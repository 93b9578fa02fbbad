#include "io/case_file/sections.hpp"

#include <algorithm>
#include <array>

namespace flangewright::case_file {

namespace {

using key_file::Measure;
using key_file::Need;
using key_file::TableReader;

const std::array<std::string, 2> end_words{"free", "continues"};

const std::array<std::string, 4> edge_words{"snipped", "sawn", "filed", "polished"};

std::optional<material::EdgeFinish> read_edge(TableReader& table) {
    const std::optional<std::string> word = table.word("edge", edge_words, Need::optional);
    const auto found = std::ranges::find(edge_words, word.value_or(""));
    if (found == edge_words.end()) {
        return std::nullopt;
    }
    return material::edge_finishes.at(static_cast<std::size_t>(found - edge_words.begin()));
}

job::EndKind read_end(TableReader& table, const std::string& key) {
    const std::optional<std::string> word = table.word(key, end_words, Need::optional);
    return word == "continues" ? job::EndKind::continues : job::EndKind::free;
}

void refuse_beside_outline(TableReader& table) {
    for (const char* key : {"web_width", "flange_depth", "flat_width"}) {
        if (table.has(key)) {
            table.object_found(
                key,
                std::string(key) + " beside outline_layer in [bend_line]",
                "one of them (the outline gives web width and flat flange width)",
                "delete it, or take outline_layer out"
            );
        }
    }
}

key_file::ValueRule rule_of(bool is_width) {
    return {
        .key = is_width ? "flat_width" : "flange_depth",
        .measure = Measure::length,
        .lowest = 1,
        .highest = 300,
        .reason = is_width ? "flat, from the bend tangent to the cut edge, trim allowance included"
                           : "from the web's outside face to the net edge, along the flange",
        .remedy = "check the unit against the drawing"};
}

void read_flange(TableReader& table, BlankSection& blank, bool has_lip) {
    const bool has_depth = table.has("flange_depth");
    const bool has_width = table.has("flat_width");
    if (has_depth && has_width && !has_lip) {
        table.object_found(
            "flat_width",
            "both flange_depth and flat_width",
            "one of them (both only with [return_bend])",
            "keep flange_depth from the drawing, or flat_width as the blank is cut"
        );
        return;
    }
    if (has_depth && has_width) { // the depth says where the lip's block stands
        blank.flange_depth = table.value(rule_of(false));
    }
    const ValueAlong read = read_value_along(table, rule_of(has_width));
    (has_width ? blank.flat_width : blank.flange_depth) = read.largest;
    blank.widths = read.profile;
}

void read_widths(TableReader& table, BlankSection& blank, bool has_lip) {
    blank.web_width = table.value(
        {.key = "web_width",
         .measure = Measure::length,
         .lowest = 2,
         .highest = 1000,
         .reason = "from the web's edge to the bend tangent; far metal changes nothing",
         .remedy = "check the unit; a narrower strip of the web gives the same answer"}
    );
    read_flange(table, blank, has_lip);
}

} // namespace

BlankSection read_blank(TableReader& table, bool has_drawn_outline, bool has_lip) {
    BlankSection blank;
    if (has_drawn_outline) {
        refuse_beside_outline(table);
    } else {
        read_widths(table, blank, has_lip);
    }
    blank.trim_allowance = table.value(
        {.key = "trim_allowance",
         .measure = Measure::length,
         .lowest = 0,
         .highest = 50,
         .reason = "left on to be cut off after forming",
         .remedy = "check the unit; about 1/4 in is usual",
         .need = Need::optional}
    );
    if (!blank.trim_allowance && !table.has("trim_allowance")) {
        blank.trim_allowance = 0;
    }
    blank.start = read_end(table, "start");
    blank.end = read_end(table, "end");
    blank.openings = read_openings(table);
    blank.edge_finish = read_edge(table);
    table.finish();
    return blank;
}

TrimSection read_trim(TableReader& table) {
    TrimSection trim;
    trim.edge_finish = read_edge(table);
    table.finish();
    return trim;
}

} // namespace flangewright::case_file
