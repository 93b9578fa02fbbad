// What the user asked for on the command line.
#pragma once

#include "io/compare/variation.hpp"
#include "io/tensile/test_file.hpp"
#include "mesh/base/result.hpp"
#include "solver/material/sheet_material.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace flangewright::command_line {

/// flangewright run CASE ...
struct RunArguments {
    std::filesystem::path case_file;
    std::optional<std::filesystem::path> out;
    int n_threads = 0; ///< 0: all cores
    bool with_pictures = true;
    bool with_even_drive = true; ///< beside a drive that is worked along the line
    bool with_remedies = true; ///< where the part may split
    bool resumes = false; ///< goes on where an earlier run was left
    std::optional<std::filesystem::path> sheets; ///< the user's own sheets lie here
    std::optional<std::string> from; ///< does this step and those after it anew; name or number
};

/// flangewright compare CASE ... --vary KEY=VALUES
struct CompareArguments {
    std::vector<std::filesystem::path> cases;
    std::vector<compare::Variation> variations;
    std::optional<std::filesystem::path> out;
    int n_at_once = 0; ///< 0: as many as there are cores
    bool with_pictures = true;
    bool with_even_drive = true;
    bool with_remedies = true;
    bool lists_jobs = false; ///< writes the runs as lines and runs nothing
    bool collects = false; ///< joins what has been run elsewhere and runs nothing
    std::optional<std::filesystem::path> sheets;
};

/// flangewright check CASE
struct CheckArguments {
    std::filesystem::path case_file;
    std::optional<std::filesystem::path> sheets;
};

/// flangewright materials [NAME]
struct MaterialsArguments {
    std::optional<std::string> name;
    std::optional<std::filesystem::path> sheets;
    std::optional<std::filesystem::path> picture; ///< of the sheet's curves, a PNG file
};

/// flangewright fit TEST
struct FitArguments {
    std::filesystem::path test_file;
    tensile::StripSizes sizes;
    std::optional<double> youngs_modulus; ///< MPa
    std::optional<double> poisson_ratio;
    int direction = 0; ///< of the strip to the rolling direction: 0, 45 or 90 deg
    std::optional<std::string> name; ///< of the sheet
    std::optional<std::filesystem::path> out; ///< the material file
    std::optional<std::filesystem::path> picture;
};

/// flangewright coupon write CASE
struct CouponWriteArguments {
    std::filesystem::path case_file;
    std::filesystem::path out; ///< folder
    std::optional<std::filesystem::path> sheets;
};

/// flangewright coupon read MEASURED...
struct CouponReadArguments {
    std::vector<std::filesystem::path> measured_files; ///< one per test flange
    std::string sheet; ///< its name
    std::string lot;
    material::EdgeFinish finish = material::EdgeFinish::snipped;
    std::optional<double> thickness; ///< of the sheet before the test, mm
    std::optional<std::filesystem::path> out; ///< the sheet's file
    std::optional<std::filesystem::path> sheets;
};

/// What flangewright solve-for looks for.
enum class SolveFor { undercut, flange_depth, plan_radius, nose_radius };

/// flangewright solve-for WHAT CASE. Values as written: their unit is the case's.
struct SolveForArguments {
    SolveFor what = SolveFor::undercut;
    std::filesystem::path case_file;
    std::string from; ///< empty: not said; so below
    std::string to;
    std::string tolerance;
    std::string limit;
    std::string angle;
    bool one_value = false; ///< of an undercut, also where the angle differs along the line
    std::optional<std::filesystem::path> out;
    int n_threads = 0; ///< 0: all cores
    bool with_pictures = true;
    std::optional<std::filesystem::path> sheets;
};

/// flangewright templates CASE
struct TemplatesArguments {
    std::filesystem::path case_file;
    std::filesystem::path out; ///< folder
    std::string depth = {}; ///< wanted, as written; empty: the case's
    std::string within = {}; ///< largest miss of the depth, as written; empty: 0.4 mm
    bool is_letter = false; ///< pages of Letter size, not A4
    bool is_by_hand = false; ///< from the development alone, nothing is formed
    int n_threads = 0; ///< 0: all cores
    std::optional<std::filesystem::path> sheets;
};

/// flangewright log CASE: exactly one of both files.
struct LogArguments {
    std::filesystem::path case_file;
    std::optional<std::filesystem::path> measured_file;
    std::optional<std::filesystem::path> template_file; ///< to be written
    std::optional<std::filesystem::path> out; ///< the folder of the run's results
    std::string lot; ///< empty: as the case says
    std::string part;
    bool stores_limit = false; ///< of the edge, if it has something to say
    std::optional<std::filesystem::path> sheets;
};

using Arguments = std::variant<
    RunArguments,
    CompareArguments,
    CheckArguments,
    MaterialsArguments,
    FitArguments,
    CouponWriteArguments,
    CouponReadArguments,
    SolveForArguments,
    TemplatesArguments,
    LogArguments>;

/// Nothing to do but to say something: help or version (exit code 0), or what is wrong (2).
struct OnlyText {
    int exit_code = 0;
    std::string text;
};

/// Reads the words after the program's name. Fails: with the text to show and the exit code.
[[nodiscard]] Result<Arguments, OnlyText> read_arguments(const std::vector<std::string>& words);

/// "0.1.0".
[[nodiscard]] std::string program_version();

} // namespace flangewright::command_line
