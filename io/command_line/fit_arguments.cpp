#include "io/command_line/command_line.hpp"
#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/units/stress.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

namespace {

/// A range of one option, in the program's unit, and the words for it.
struct Allowed {
    double lowest = 0;
    double highest = 0;
    std::string words;
};

/// Takes one word after the other and keeps the first problem.
class WordReader {
public:
    using Reading = units::Written (*)(std::string_view, units::LengthUnit);

    std::optional<double>
    value(const char* option, const std::string& word, Reading read, const Allowed& allowed) {
        if (word.empty()) {
            return std::nullopt;
        }
        const units::Written written = read(word, units::LengthUnit::millimetre);
        if (!written) {
            object(option, word, written.error().allowed, written.error().remedy);
            return std::nullopt;
        }
        if (!(*written >= allowed.lowest && *written <= allowed.highest)) {
            object(option, word, allowed.words, "check the value and its unit");
            return std::nullopt;
        }
        return *written;
    }

    void object(
        const char* option,
        const std::string& word,
        const std::string& allowed,
        const std::string& remedy
    ) {
        if (!problem_) {
            problem_ = wrong(option, key_file::quoted_excerpt(word), allowed, remedy);
        }
    }
    [[nodiscard]] const std::optional<OnlyText>& problem() const { return problem_; }

private:
    std::optional<OnlyText> problem_;
};

units::Written read_plain(std::string_view text, units::LengthUnit) {
    const std::optional<units::SplitNumber> split = units::split_number(text);
    if (!split || !split->unit.empty()) {
        return tl::unexpected(units::NotUnderstood{"a plain number", "write it like 0.33"});
    }
    return split->number;
}

int read_direction(WordReader& reader, const std::string& word) {
    if (word.empty() || word == "0") {
        return 0;
    }
    if (word == "45" || word == "90") {
        return word == "45" ? 45 : 90;
    }
    reader.object(
        "--direction",
        word,
        "0, 45 or 90",
        "write the angle of the strip to the rolling direction, in degrees"
    );
    return 0;
}

} // namespace

Result<Arguments, OnlyText> fit_arguments(const FitWords& words) {
    if (words.test.empty()) {
        return tl::unexpected(wrong(
            "TEST", "nothing", "the path of a tensile test", "write flangewright fit TEST.csv"
        ));
    }
    WordReader reader;
    FitArguments fit;
    fit.test_file = words.test;
    fit.sizes.gauge_length = reader.value(
        "--gauge-length", words.gauge_length, units::read_length, {1, 1000, "1 mm to 1 m"}
    );
    fit.sizes.width =
        reader.value("--width", words.width, units::read_length, {0.5, 200, "0.5 mm to 200 mm"});
    fit.sizes.thickness = reader.value(
        "--thickness", words.thickness, units::read_length, {0.05, 15, "0.05 mm to 15 mm"}
    );
    fit.youngs_modulus = reader.value(
        "--modulus", words.modulus, units::read_stress, {20'000, 450'000, "20 GPa to 450 GPa"}
    );
    fit.poisson_ratio =
        reader.value("--poisson", words.poisson, read_plain, {0.1, 0.45, "0.1 to 0.45"});
    fit.direction = read_direction(reader, words.direction);
    if (!words.name.empty()) {
        fit.name = words.name;
    }
    fit.out = path_if_any(words.out);
    fit.picture = path_if_any(words.picture);
    if (fit.out && fit.out->extension() != ".toml") {
        reader.object(
            "--out", words.out, "a file name that ends in .toml", "write it like own.toml"
        );
    }
    if (reader.problem()) {
        return tl::unexpected(*reader.problem());
    }
    return fit;
}

} // namespace flangewright::command_line
