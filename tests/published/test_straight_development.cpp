// Development of a straight square flange against the worked examples and rules of the sheet-metal
// texts. Source: in the head lines of data/bend_development.csv. Their rules put the neutral line
// at 0.447 of the thickness and round the arc's constant down; this program keeps the length of the
// mid-surface, as a thin sheet bent without tension does (marciniak-duncan-hu-2002, from memory),
// so its flat is wider by 0.053 * pi/2 of a thickness and what the constant loses: below 0.2 mm a
// bend for these sheets, half of what a template may miss.
#include "solver/findings/flange_development.hpp"
#include "solver/process/outline_guess.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

namespace flangewright {
namespace {

constexpr double inch = 25.4;
constexpr double printed = 0.00005 * inch; // half of the last digit of the texts
constexpr double other_neutral_line = 0.2; // mm, see above

/// An allowance rule, degrees * (of_radius * R + of_thickness * T).
struct Rule {
    std::string column;
    std::string figure;
    std::string source;
    double of_radius = 0;
    double of_thickness = 0;
};

job::Job square_flange(double thickness, double radius, double depth) {
    job::Job job;
    job.sheet.thickness = thickness * inch;
    job.block.nose_radius = radius * inch;
    job.blank.line = outline::BendLine::straight(100);
    job.blank.flange_depth = depth * inch;
    job.blank.flange_width = findings::developed_flange_width(job);
    return job;
}

support::Figure figure_of(std::string name, const std::string& source) {
    std::ranges::replace(name, '_', ' ');
    return {
        .table = "development", .check = name + ", square bend", .source = source, .mesh = "none"};
}

/// Near the text's, and off it by no more and no less than its rule is off the mid-surface.
void expect_allowance(
    const job::Job& job, const std::string& name, const Rule& rule, double in_text
) {
    const double allowance = findings::bend_allowance(job);
    support::compare(
        figure_of(name, rule.source)
            .of("bend allowance by the " + rule.figure + " rule, mm", allowance, in_text),
        {.width = other_neutral_line, .is_absolute = true}
    );
    constexpr double degree = std::numbers::pi / 180;
    const double off = 90
        * ((degree - rule.of_radius) * job.block.nose_radius
           + (0.5 * degree - rule.of_thickness) * job.sheet.thickness);
    EXPECT_NEAR(allowance - in_text, off, printed) << name << ", " << rule.figure;
}

TEST(StraightDevelopment, HasTheSetbackAndTheAllowanceOfTheTexts) {
    const support::ReferenceTable texts("bend_development");
    for (std::size_t row = 0; row < texts.n_rows(); ++row) {
        const std::string name = texts.text(row, "case");
        const job::Job job =
            square_flange(texts.number(row, "thickness"), texts.number(row, "radius"), 1);
        support::compare(
            figure_of(name, "faa-h-8083-31, read")
                .of("setback, mm", findings::mould_setback(job), inch * texts.number(row, "setback")
                ),
            {.width = printed, .is_absolute = true}
        );
        for (const Rule& rule :
             {Rule{"allowance_faa", "FAA", "faa-h-8083-31, memory", 0.01743, 0.0078},
              Rule{"allowance_navy", "Navy", "navy-sheet-metal-course, read", 0.0173, 0.0078}}) {
            expect_allowance(job, name, rule, inch * texts.number(row, rule.column));
        }
    }
}

// Flats 0.800, 1.600 and 0.800 in between two bends; the handbook's total is 3.76 in (from memory).
TEST(StraightDevelopment, LaysOutTheChannelOfTheHandbook) {
    const job::Job job = square_flange(0.040, 0.160, 1.00);
    const support::Figure figure = figure_of("u_channel", "faa-h-8083-31, read");
    const double net = process::guessed_net_widths(job, {}).at(50);
    const double flat = net - findings::bend_allowance(job);
    support::compare(
        figure.of("flat of a side, mm", flat, 0.800 * inch), {.width = printed, .is_absolute = true}
    );
    const double bottom = 2.00 * inch - 2 * findings::mould_setback(job);
    support::compare(
        figure.of("flat of the bottom, mm", bottom, 1.600 * inch),
        {.width = printed, .is_absolute = true}
    );
    support::compare(
        figure_of("u_channel", "faa-h-8083-31, memory")
            .of("whole flat width, mm", 2 * net + bottom, 3.76 * inch),
        {.width = 2 * other_neutral_line, .is_absolute = true}
    );
}

} // namespace
} // namespace flangewright
