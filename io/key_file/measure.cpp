#include "io/key_file/measure.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/units/percent.hpp"
#include "io/units/stress.hpp"

#include <fmt/format.h>

namespace flangewright::key_file {

namespace {

units::Written refused(std::string allowed, std::string remedy) {
    return tl::unexpected(units::NotUnderstood{std::move(allowed), std::move(remedy)});
}

units::Written from_number(double number, Measure measure, units::LengthUnit unit) {
    switch (measure) {
    case Measure::length:
        return units::length_of(number, unit);
    case Measure::stress:
        return units::stress_of(number, unit);
    case Measure::percent:
        return refused("a percentage with its sign", "write it like \"16 %\", in quotes");
    case Measure::number:
    case Measure::strain:
    case Measure::angle:
        return number;
    }
    return number;
}

units::Written from_text(std::string_view text, Measure measure, units::LengthUnit unit) {
    switch (measure) {
    case Measure::length:
        return units::read_length(text, unit);
    case Measure::stress:
        return units::read_stress(text, unit);
    case Measure::percent:
    case Measure::strain:
        return units::read_percent(text);
    case Measure::angle:
        return refused("an angle in degrees as a plain number", "write it like 90, without quotes");
    case Measure::number:
        return refused("a plain number", "write the number without quotes and without a unit");
    }
    return refused("a plain number", "write the number without quotes");
}

std::string limit_text(double limit, Measure measure, units::LengthUnit unit) {
    switch (measure) {
    case Measure::length:
        return unit == units::LengthUnit::inch ? units::side_by_side(limit, unit)
                                               : units::in_mm(limit);
    case Measure::stress:
        return units::stress_text(limit, unit);
    case Measure::percent:
        return units::percent_text(limit, 1);
    case Measure::angle:
        return units::plain_number(limit, 2) + " deg";
    case Measure::number:
    case Measure::strain:
        return fmt::format("{:g}", limit);
    }
    return {};
}

} // namespace

units::Written measured(const Node& node, Measure measure, units::LengthUnit unit) {
    if (node.kind == Kind::number) {
        return from_number(node.number, measure, unit);
    }
    if (node.kind == Kind::text) {
        return from_text(node.text, measure, unit);
    }
    return refused("one value", "write a number, or a number with its unit in quotes");
}

std::string as_written(const Node& node, Measure measure, units::LengthUnit unit) {
    switch (node.kind) {
    case Kind::text:
        return quoted_excerpt(node.text);
    case Kind::number:
        if (measure == Measure::length) {
            return node.text + (unit == units::LengthUnit::inch ? " in" : " mm");
        }
        return node.text;
    case Kind::list:
        return "a list";
    case Kind::table:
        return "a section";
    case Kind::truth:
    case Kind::other:
        return node.text;
    }
    return node.text;
}

std::string word_for(Measure measure) {
    switch (measure) {
    case Measure::length:
        return "length";
    case Measure::stress:
        return "stress";
    case Measure::strain:
        return "strain";
    case Measure::percent:
        return "percentage";
    case Measure::angle:
        return "angle";
    case Measure::number:
        return "number";
    }
    return {};
}

std::string range_text(const ValueRule& rule, units::LengthUnit unit) {
    std::string text = limit_text(rule.lowest, rule.measure, unit);
    if (rule.highest > rule.lowest) {
        text += " to " + limit_text(rule.highest, rule.measure, unit);
    }
    return rule.reason.empty() ? text : text + " (" + rule.reason + ")";
}

} // namespace flangewright::key_file
