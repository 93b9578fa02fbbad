#include "io/command_line/solve_for_words.hpp"

#include "io/units/angle.hpp"
#include "io/units/percent.hpp"

#include <fmt/format.h>

namespace flangewright::command_line {

namespace {

std::string limit_words(const Question& question) {
    const double limit = question.search.wanted;
    return limit > 0
        ? fmt::format("at most {} of any limit used", units::percent_text(limit, 1))
        : fmt::format(
            "the verdict holds: less than {} of any limit used, half of one on data neither from a "
            "coupon nor published",
            units::percent_text(question.as_is.job.close_share, 1)
        );
}

} // namespace

std::string angle_text(double angle) {
    return fmt::format("{:.2f} deg", units::degrees(angle));
}

std::string figure_text(const Question& question, double figure) {
    return question.is_angle() ? angle_text(figure) : units::percent_text(figure, 1);
}

const char* name_of(SolveFor what) {
    switch (what) {
    case SolveFor::undercut:
        return "undercut";
    case SolveFor::flange_depth:
        return "deepest flange";
    case SolveFor::plan_radius:
        return "smallest plan radius";
    case SolveFor::nose_radius:
        return "smallest nose radius";
    }
    return "";
}

std::string wanted_words(const Question& question) {
    if (!question.is_angle()) {
        return limit_words(question);
    }
    const std::string tolerance = angle_text(question.search.figure_tolerance);
    return question.wanted_along.is_empty()
        ? fmt::format(
            "a flange angle of {} after release, within {}",
            angle_text(question.search.wanted),
            tolerance
        )
        : fmt::format(
            "after release the flange angles that the case's wall_angle has, within {}", tolerance
        );
}

} // namespace flangewright::command_line
