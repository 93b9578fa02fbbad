#include "io/drawing/dxf_extract.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

namespace flangewright::drawing {

namespace {

struct Pair {
    int code = 0;
    std::string_view value;
};

std::string_view trimmed(std::string_view line) {
    constexpr std::string_view blanks = " \t\r";
    const std::size_t begin = line.find_first_not_of(blanks);
    if (begin == std::string_view::npos) {
        return {};
    }
    return line.substr(begin, line.find_last_not_of(blanks) - begin + 1);
}

std::optional<long> whole_number(std::string_view text) {
    long number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size()) {
        return std::nullopt;
    }
    return number;
}

std::string_view take_line(std::string_view& rest) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    return trimmed(line);
}

/// The pairs of the text; one cut short at the end is left out.
std::optional<std::vector<Pair>> pairs_of(std::string_view rest) {
    std::vector<Pair> pairs;
    while (rest.find('\n') != std::string_view::npos) {
        const std::string_view first = take_line(rest);
        if (first.empty() && rest.empty()) {
            break;
        }
        const std::optional<long> code = whole_number(first);
        if (!code || *code < 0 || *code > 1071) {
            return std::nullopt;
        }
        pairs.push_back({static_cast<int>(*code), take_line(rest)});
    }
    return pairs;
}

/// Whether a pair tells how many parts an entity has.
bool is_count(std::string_view entity, int code) {
    return (entity == "SPLINE" && code >= 72 && code <= 74)
        || (entity == "LWPOLYLINE" && code == 90);
}

class Extract {
public:
    Extract() { text_ = "0\nSECTION\n2\nHEADER\n"; }

    void add_unit(std::string_view code) {
        text_ += "9\n$INSUNITS\n70\n" + std::string(code) + '\n';
    }
    void end_header() { text_ += "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"; }
    /// False when a count of the entity is more than all of its pairs.
    bool add_entity(const Pair* begin, const Pair* end) {
        constexpr std::array wanted{
            "LINE",
            "ARC",
            "CIRCLE",
            "LWPOLYLINE",
            "POLYLINE",
            "VERTEX",
            "SEQEND",
            "SPLINE",
            "ELLIPSE",
            "INSERT",
            "POINT"};
        if (std::ranges::find(wanted, begin->value) == wanted.end()) {
            return true;
        }
        for (const Pair* pair = begin; pair != end; ++pair) {
            if (is_count(begin->value, pair->code)) {
                const std::optional<long> count = whole_number(pair->value);
                if (!count || *count < 0 || *count > end - begin) {
                    return false;
                }
            }
            text_ += std::to_string(pair->code) + '\n' + std::string(pair->value) + '\n';
        }
        return true;
    }
    std::string finished() { return text_ + "0\nENDSEC\n0\nEOF\n"; }

private:
    std::string text_;
};

/// From the first pair after the section's name to its end.
std::pair<std::size_t, std::size_t> section(const std::vector<Pair>& pairs, std::string_view name) {
    std::size_t begin = pairs.size();
    for (std::size_t i = 0; i + 1 < pairs.size(); ++i) {
        if (pairs[i].code == 0 && pairs[i].value == "SECTION" && pairs[i + 1].value == name) {
            begin = i + 2;
            break;
        }
    }
    std::size_t end = begin;
    while (end < pairs.size() && !(pairs[end].code == 0 && pairs[end].value == "ENDSEC")) {
        ++end;
    }
    return {begin, end};
}

} // namespace

std::optional<std::string> extract_of(std::string_view text) {
    const std::optional<std::vector<Pair>> pairs = pairs_of(text);
    if (!pairs) {
        return std::nullopt;
    }
    Extract extract;
    const auto [header, header_end] = section(*pairs, "HEADER");
    for (std::size_t i = header; i + 1 < header_end; ++i) {
        if ((*pairs)[i].code == 9 && (*pairs)[i].value == "$INSUNITS"
            && whole_number((*pairs)[i + 1].value)) {
            extract.add_unit((*pairs)[i + 1].value);
        }
    }
    extract.end_header();
    const auto [entities, entities_end] = section(*pairs, "ENTITIES");
    if (entities == pairs->size()) {
        return std::nullopt;
    }
    for (std::size_t i = entities; i < entities_end;) {
        std::size_t next = i + 1;
        while (next < entities_end && (*pairs)[next].code != 0) {
            ++next;
        }
        if (!extract.add_entity(pairs->data() + i, pairs->data() + next)) {
            return std::nullopt;
        }
        i = next;
    }
    return extract.finished();
}

} // namespace flangewright::drawing
