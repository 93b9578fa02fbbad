#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/units/length.hpp"

#include <algorithm>

namespace flangewright::command_line {

namespace {

std::optional<OnlyText> missing(const CouponReadWords& words) {
    const std::string remedy = "see \"flangewright coupon read --help\"";
    if (words.measured.empty()) {
        return wrong("MEASURED", "nothing", "the path of a table of marks", remedy);
    }
    if (words.sheet.empty()) {
        return wrong("--sheet", "nothing", "the name of the sheet that was tested", remedy);
    }
    if (words.lot.empty()) {
        return wrong("--lot", "nothing", "the lot the coupon was cut from", remedy);
    }
    if (words.finish.empty()) {
        return wrong("--finish", "nothing", "snipped, sawn, filed or polished", remedy);
    }
    return std::nullopt;
}

/// A table counted twice would make the lot look more alike than it is.
std::optional<OnlyText> twice_problem(const std::vector<std::string>& measured) {
    constexpr std::size_t most_coupons = 50;
    for (auto each = measured.begin(); each != measured.end(); ++each) {
        if (std::find(measured.begin(), each, *each) != each) {
            return wrong(
                "MEASURED",
                key_file::quoted_excerpt(*each) + " twice",
                "one table for each test flange",
                "leave it out once"
            );
        }
    }
    if (measured.size() > most_coupons) {
        return wrong(
            "MEASURED", std::to_string(measured.size()) + " tables", "1 to 50", "read fewer"
        );
    }
    return std::nullopt;
}

std::optional<material::EdgeFinish> finish_of(const std::string& word) {
    const auto found =
        std::ranges::find(material::edge_finishes, word, [](material::EdgeFinish finish) {
            return material::word_for(finish);
        });
    return found == material::edge_finishes.end() ? std::nullopt : std::optional(*found);
}

Result<std::optional<double>, OnlyText> thickness_of(const std::string& word) {
    if (word.empty()) {
        return std::nullopt;
    }
    const units::Written read = units::read_length(word, units::LengthUnit::millimetre);
    if (!read) {
        return tl::unexpected(wrong(
            "--thickness", key_file::quoted_excerpt(word), read.error().allowed, read.error().remedy
        ));
    }
    if (!(*read >= 0.1 && *read <= 6)) {
        return tl::unexpected(wrong(
            "--thickness",
            key_file::quoted_excerpt(word),
            "0.1 mm to 6 mm",
            "check the value and its unit"
        ));
    }
    return std::optional(*read);
}

} // namespace

Result<Arguments, OnlyText> coupon_read_arguments(
    const CouponReadWords& words, const std::string& out, const std::string& sheets
) {
    if (const auto problem = missing(words)) {
        return tl::unexpected(*problem);
    }
    if (const auto problem = twice_problem(words.measured)) {
        return tl::unexpected(*problem);
    }
    if (const auto problem = label_problem("--lot", words.lot)) {
        return tl::unexpected(*problem);
    }
    const std::optional<material::EdgeFinish> finish = finish_of(words.finish);
    if (!finish) {
        return tl::unexpected(wrong(
            "--finish",
            key_file::quoted_excerpt(words.finish),
            "snipped, sawn, filed or polished",
            "write how the coupon's edge was finished"
        ));
    }
    const Result<std::optional<double>, OnlyText> thickness = thickness_of(words.thickness);
    if (!thickness) {
        return tl::unexpected(thickness.error());
    }
    CouponReadArguments read;
    read.measured_files.assign(words.measured.begin(), words.measured.end());
    read.sheet = words.sheet;
    read.lot = words.lot;
    read.finish = *finish;
    read.thickness = *thickness;
    read.out = path_if_any(out);
    read.sheets = path_if_any(sheets);
    if (read.out && read.out->extension() != ".toml") {
        return tl::unexpected(wrong(
            "--out",
            key_file::quoted_excerpt(out),
            "a file name that ends in .toml",
            "write it like own.toml"
        ));
    }
    return read;
}

} // namespace flangewright::command_line
