#include "tests/support/verification_record.hpp"

#include "mesh/base/check.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <filesystem>
#include <fstream>

namespace flangewright::support {

namespace {

// Letters, digits and hyphens of a text, the rest as single hyphens: names files, and sorts rows.
std::string slug(const std::string& text) {
    std::string slug;
    for (const char c : text) {
        if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.') {
            slug += c;
        } else if (!slug.empty() && slug.back() != '-') {
            slug += '-';
        }
    }
    return slug;
}

// Five digits, no exponent for the usual sizes.
std::string number(double value) {
    return fmt::format("{:.5g}", value);
}

std::string shown(double deviation, const Band& band) {
    return band.is_absolute ? fmt::format("{:+.5f}", deviation)
                            : fmt::format("{:+.2f} %", 100 * deviation);
}

std::string words(const Band& band) {
    const auto size = [&](double value, const char* form) {
        return band.is_absolute ? number(value)
                                : fmt::format(fmt::runtime(form), 100 * value) + " %";
    };
    if (band.about == 0) {
        return size(band.width, "{:g}");
    }
    return fmt::format(
        "**known: {} ± {}, asked {}**",
        size(band.about, "{:+g}"),
        size(band.width, "{:g}"),
        band.asked
    );
}

// The cells of a row that don't depend on the run, and those that do.
struct Row {
    std::string reference;
    std::string band;
    std::string measured;
    std::string deviation;
};

// One file a row, so that tests that run side by side don't meet. Line 1: the table; line 2: the
// row without its last two cells; line 3: these.
void write_row(const Figure& figure, const Row& row) {
    const std::filesystem::path folder(FLANGEWRIGHT_RECORD_FOLDER);
    std::filesystem::create_directories(folder);
    const std::string fixed = fmt::format(
        "| {} | {} | {} | {} | {} | {} |",
        figure.check,
        figure.figure,
        figure.source,
        figure.mesh,
        row.reference,
        row.band
    );
    check(fixed.find_first_of(";[]") == std::string::npos, "a record has no ; and no brackets");
    const std::string name = slug(figure.table) + "__" + slug(figure.check) + "__"
        + slug(figure.figure) + "__" + slug(figure.mesh);
    std::ofstream file(folder / (name + ".record"));
    file << figure.table << '\n' << fixed << '\n';
    file << ' ' << row.measured << " | " << row.deviation << " |\n";
    check(file.good(), "a record can be written");
    testing::Test::RecordProperty(
        slug(figure.check + " " + figure.figure + " " + figure.mesh),
        fmt::format("{} against {}: {}", row.measured, row.reference, row.deviation)
    );
}

std::string words(const CurveBand& band) {
    const std::string most = band.about == 0
        ? number(band.most)
        : fmt::format("**known: {:+g} ± {:g}, asked {}**", band.about, band.most, band.asked);
    return fmt::format("{}, RMS {}", most, number(band.rms));
}

std::string shown(const Apart& apart) {
    return fmt::format("{:+.4f} at {:.1f}, RMS {:.4f}", apart.most, apart.at, apart.rms);
}

void expect_within(const Figure& figure, const Apart& found, const CurveBand& band) {
    EXPECT_LE(std::abs(found.most - band.about), band.most)
        << figure.check << ", " << figure.figure << ": " << shown(found)
        << (band.about != 0 ? "; if it has come closer, revise the known deviation" : "");
    EXPECT_LE(found.rms, band.rms) << figure.check << ", " << figure.figure << ": " << shown(found);
}

Row row_of(const Figure& figure, const std::string& band, const std::string& deviation) {
    return {number(figure.reference), band, number(figure.measured), deviation};
}

} // namespace

double deviation(const Figure& figure, const Band& band) {
    return band.is_absolute ? figure.measured - figure.reference
                            : figure.measured / figure.reference - 1;
}

void compare(const Figure& figure, const Band& band) {
    const double found = deviation(figure, band);
    write_row(figure, row_of(figure, words(band), shown(found, band)));
    EXPECT_LE(std::abs(found - band.about), band.width)
        << figure.check << ", " << figure.figure << ", " << figure.mesh << ": " << figure.measured
        << " against " << figure.reference
        << (band.about != 0 ? "; if it has come closer, revise the known deviation" : "");
}

void compare_worst(const Figure& like, const Worst& worst, double width) {
    Figure figure = like;
    figure.figure = fmt::format("{} values, largest deviation", worst.n());
    const std::string percent = fmt::format("{:.2f} %", 100 * worst.value());
    write_row(figure, {"table", words({.width = width}), "", percent});
    EXPECT_LE(worst.value(), width) << figure.check << ", " << figure.figure;
    EXPECT_GT(worst.n(), 0);
}

void compare_curves(
    const Figure& like, const Apart& held, const Apart& released, const CurveBand& band
) {
    const std::string places = fmt::format("{} places", held.n);
    write_row(like, {places, words(band), shown(held), shown(released)});
    expect_within(like, held, band);
    expect_within(like, released, band);
}

void show(const Figure& figure) {
    write_row(
        figure,
        row_of(figure, "shown", figure.reference == 0 ? "" : shown(deviation(figure, {}), {}))
    );
}

} // namespace flangewright::support
