// What flangewright solve-for is asked: the key that is looked for, its bounds, and the case with
// another value in it.
#pragma once

#include "io/case_file/case_file.hpp"
#include "io/command_line/arguments.hpp"
#include "io/key_file/changed_value.hpp"
#include "mesh/outline/profile.hpp"
#include "solver/process/value_search.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::command_line {

/// A case as a text, its values to be changed.
struct CaseText {
    std::string file; ///< as the user named it
    std::string text;
    units::LengthUnit unit = units::LengthUnit::millimetre;
};

/// The question, checked.
struct Question {
    SolveFor what = SolveFor::undercut;
    CaseText own;
    case_file::CaseFile as_is;
    key_file::KeyName key; ///< whose value is looked for
    process::ValueSearch search;
    outline::Profile wanted_along; ///< of an undercut whose wall varies in the case already
    outline::Profile table; ///< of depths or flat widths over the station, mm: the value looked for
                            ///< is its largest, and all others change by as much

    /// "block.nose_radius".
    [[nodiscard]] std::string key_word() const { return key.section + "." + key.key; }
    [[nodiscard]] bool is_angle() const { return what == SolveFor::undercut; }
    /// As it is put into the file: degrees, or a number in the file's unit. Units: mm, rad.
    [[nodiscard]] std::string written(double value) const;
    /// With its unit, for people. Units: mm, rad.
    [[nodiscard]] std::string shown(double value) const;
    /// The same, and for a table that it is its largest. Units: mm, rad.
    [[nodiscard]] std::string shown_value(double value) const;
    /// What written() stands for. Units: mm, rad.
    [[nodiscard]] double rounded(double value) const;
    /// By how much a whole table is raised for its largest to be this. Units: mm.
    [[nodiscard]] double added(double value) const;
    /// The file with this value, or its table raised to it. Fails: as key_file::with_value().
    [[nodiscard]] Result<std::string, key_file::InputProblem> text_with(double value) const;
    /// The same with a table over stations. Units: mm, rad.
    [[nodiscard]] Result<std::string, key_file::InputProblem>
    text_with(const std::vector<double>& stations, const std::vector<double>& values) const;
    /// The text to be kept in another folder: a drawing, named from the case's own, is named by its
    /// whole path. Fails: as key_file::with_value().
    [[nodiscard]] Result<std::string, key_file::InputProblem>
    with_whole_path(const std::string& text) const;
    /// Nothing where the case does not allow it.
    [[nodiscard]] std::optional<job::Job> job_at(double value) const;
    [[nodiscard]] std::optional<job::Job>
    job_at(const std::vector<double>& stations, const std::vector<double>& walls) const;
};

/// Fails: with what is wrong in the case for this question, or on the command line.
[[nodiscard]] Result<Question, std::vector<key_file::InputProblem>>
question_of(const SolveForArguments& arguments);

} // namespace flangewright::command_line
