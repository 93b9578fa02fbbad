// The only file that includes the command-line library.
#include "io/command_line/arguments.hpp"

#include "io/command_line/command_line.hpp"
#include "io/command_line/command_tree.hpp"
#include "io/command_line/command_words.hpp"
#include "io/key_file/excerpt.hpp"
#include "io/key_file/input_problem.hpp"
#include "io/key_file/nearest_word.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <array>
#include <sstream>

namespace flangewright::command_line {

namespace {

// The words as the library leaves them; checked by us so that every message is our own.
struct RawWords {
    std::string run_case;
    std::string out;
    std::string threads;
    bool no_pictures = false;
    bool no_even_drive = false;
    bool no_remedies = false;
    bool resume = false;
    std::string from;
    std::string check_case;
    std::string material;
    std::string sheets;
    std::string picture;
    FitWords fit;
    CompareWords compare;
    std::string coupon_case;
    CouponReadWords coupon_read;
    SolveForWords solve_for;
    TemplatesWords templates;
    LogWords log;
};

struct Commands {
    CLI::App app{
        "Will a hand-formed flange split, how far does it spring back, does the web stay flat?\n"
        "A forming estimate, not approved data.",
        "flangewright"};
    CLI::App* run = nullptr;
    CLI::App* compare = nullptr;
    CLI::App* check = nullptr;
    CLI::App* materials = nullptr;
    CLI::App* fit = nullptr;
    CLI::App* coupon = nullptr;
    CLI::App* coupon_write = nullptr;
    CLI::App* coupon_read = nullptr;
    CLI::App* solve_for = nullptr;
    CLI::App* templates = nullptr;
    CLI::App* log = nullptr;

    [[nodiscard]] std::array<CLI::App*, 11> all() const {
        return {
            run,
            compare,
            check,
            materials,
            fit,
            coupon,
            coupon_write,
            coupon_read,
            solve_for,
            templates,
            log};
    }
};

constexpr const char* sheets_note =
    "folder of your own sheets ($XDG_CONFIG_HOME/flangewright/sheets, else "
    "~/.config/flangewright/sheets)";

void declare_run(Commands& commands, RawWords& words) {
    commands.run =
        commands.app.add_subcommand("run", "Bends and releases the part, writes the results");
    commands.run->add_option("CASE", words.run_case, "case file");
    commands.run->add_option(
        "--out", words.out, "folder for the results (CASE-result beside the case)"
    );
    commands.run->add_option("--threads", words.threads, "processor cores to use (all)");
    commands.run->add_flag("--no-pictures", words.no_pictures, "leave the pictures out");
    commands.run->add_flag(
        "--no-even-drive",
        words.no_even_drive,
        "do not set the even drive beside one worked along the line (saves one bend-down)"
    );
    commands.run->add_flag(
        "--no-remedies",
        words.no_remedies,
        "do not try what would help a part that may split (saves some seconds)"
    );
    commands.run->add_flag(
        "--resume", words.resume, "go on where a run of this case was stopped or killed"
    );
    commands.run->add_option(
        "--from", words.from, "do this step and those after it anew; its name, or its number"
    );
    commands.run->footer("Example:\n  flangewright run cases/demo/case.toml --out demo-result\n\n"
                         "Ctrl-C stops the run; finished steps are kept, and --resume goes on.");
}

void declare_compare(Commands& commands, RawWords& words) {
    commands.compare = commands.app.add_subcommand(
        "compare", "Runs variants of a case and shows them side by side"
    );
    CLI::App& compare = *commands.compare;
    compare.add_option("CASE", words.compare.cases, "case file, or several");
    compare
        .add_option(
            "--vary",
            words.compare.vary,
            "KEY=VALUE,VALUE,... of the case file; several make all combinations"
        )
        ->expected(1)
        ->take_all()
        ->allow_extra_args(false);
    compare.add_option("--out", words.out, "folder for the study (CASE-compare beside the case)");
    compare.add_option("--threads", words.threads, "runs at a time, one core each (all cores)");
    compare.add_flag("--no-pictures", words.no_pictures, "leave the pictures out");
    compare.add_flag("--no-even-drive", words.no_even_drive, "as for run");
    compare.add_flag("--no-remedies", words.no_remedies, "as for run");
    compare.add_flag(
        "--list-jobs", words.compare.list_jobs, "run nothing, write the runs as lines for a shell"
    );
    compare.add_flag(
        "--collect", words.compare.collect, "run nothing, join what was run from such lines"
    );
    compare.footer("Example:\n  flangewright compare cases/demo/case.toml "
                   "--vary block.nose_radius=1.6mm,2.4mm,3.2mm --out noses\n\n"
                   "Finished runs are kept: the same command goes on where it was stopped.\n"
                   "Many machines: flangewright compare ... --list-jobs | parallel");
}

constexpr const char* picture_note = "draw the stress-strain curves into this PNG file";

void declare_materials(Commands& commands, RawWords& words) {
    commands.materials =
        commands.app.add_subcommand("materials", "Lists the sheets known by name, or shows one");
    commands.materials->add_option("NAME", words.material, "sheet, e.g. 2024-O");
    commands.materials->add_option("--picture", words.picture, picture_note);
    commands.materials->footer("Example:\n  flangewright materials 2024-O --picture 2024-O.png");
}

void declare_fit(Commands& commands, FitWords& words) {
    commands.fit =
        commands.app.add_subcommand("fit", "Fits a tensile test, writes a sheet of your own");
    CLI::App& fit = *commands.fit;
    fit.add_option("TEST", words.test, "table with named columns, see docs/materials.md");
    fit.add_option(
        "--gauge-length", words.gauge_length, "of the strip, if the file has extensions"
    );
    fit.add_option("--width", words.width, "of the strip, if the file has loads");
    fit.add_option("--thickness", words.thickness, "of the strip, if the file has loads");
    fit.add_option(
        "--modulus", words.modulus, "Young's modulus, if it is known (as the test shows)"
    );
    fit.add_option("--poisson", words.poisson, "Poisson's ratio (0.33)");
    fit.add_option("--direction", words.direction, "strip to rolling direction: 0, 45 or 90 (0)");
    fit.add_option("--name", words.name, "of the sheet (own sheet, TEST)");
    fit.add_option("--out", words.out, "write the sheet into this TOML file");
    fit.add_option("--picture", words.picture, picture_note);
    fit.footer(
        "Example:\n  flangewright fit strip3.csv --gauge-length \"50 mm\" --width \"12.5 mm\" "
        "--thickness \"0.81 mm\" --out own_2024.toml\n\n"
        "A length without a unit is in mm, a stress in MPa."
    );
}

void declare_coupon(Commands& commands, RawWords& words) {
    commands.coupon = commands.app.add_subcommand(
        "coupon", "Your own edge limit: a test flange to bend in the shop, and its reading"
    );
    commands.coupon_write = commands.coupon->add_subcommand(
        "write", "Writes case, template and note of a test flange for your own case"
    );
    CLI::App& write = *commands.coupon_write;
    write.add_option("CASE", words.coupon_case, "case file of the part");
    write.add_option("--out", words.out, "folder to write into");
    write.footer("Example:\n  flangewright coupon write cases/demo/case.toml --out coupon");
    commands.coupon_read =
        commands.coupon->add_subcommand("read", "Reads the marks, stores the limit in your sheet");
    CLI::App& read = *commands.coupon_read;
    CouponReadWords& read_words = words.coupon_read;
    read.add_option(
        "MEASURED", read_words.measured, "tables of marks, one per flange; see docs/materials.md"
    );
    read.add_option("--sheet", read_words.sheet, "its name, e.g. 2024-O");
    read.add_option("--lot", read_words.lot, "lot or certificate number, shown with each verdict");
    read.add_option("--finish", read_words.finish, "of the edge: snipped, sawn, filed, polished");
    read.add_option(
        "--thickness", read_words.thickness, "of the sheet before, if thicknesses were measured"
    );
    read.add_option("--out", words.out, "the sheet's TOML file (in your own sheets' folder)");
    read.footer("Example:\n  flangewright coupon read measured.csv --sheet 2024-O --lot \"A 1234\" "
                "--finish filed --thickness \"0.81 mm\"");
    commands.coupon->footer(
        "Example:\n  flangewright coupon write cases/demo/case.toml --out coupon"
    );
}

void declare_solve_for(Commands& commands, RawWords& words) {
    commands.solve_for = commands.app.add_subcommand(
        "solve-for", "Finds the undercut, depth or radius that gives what is wanted"
    );
    CLI::App& command = *commands.solve_for;
    SolveForWords& own = words.solve_for;
    command.add_option(
        "WHAT", own.what, "undercut, flange-depth (deepest), plan-radius or nose-radius (smallest)"
    );
    command.add_option("CASE", own.case_file, "case file");
    command.add_option("--angle", own.angle, "of an undercut: flange angle after release (90)");
    command.add_option(
        "--limit", own.limit, "of the others: share of the limits that may be used (as the verdict)"
    );
    command.add_option("--from", own.from, "smallest value looked at, in the case's unit or deg");
    command.add_option("--to", own.to, "largest");
    command.add_option(
        "--tolerance", own.tolerance, "of the angle (0.3 deg), or of the value (0.5 mm of depth)"
    );
    command.add_flag(
        "--one-value", own.one_value, "one undercut even where the angle differs along the line"
    );
    command.add_option("--out", words.out, "folder for the case found, its run and the search");
    command.add_option("--threads", words.threads, "processor cores to use (all)");
    command.add_flag("--no-pictures", words.no_pictures, "leave the pictures of the run out");
    command.footer("Examples:\n  flangewright solve-for undercut my_part.toml --out undercut\n"
                   "  flangewright solve-for flange-depth my_part.toml --to 30 --limit \"80 %\"");
}

void declare_templates(Commands& commands, RawWords& words) {
    commands.templates = commands.app.add_subcommand(
        "templates", "Finds the blank that forms to the drawing, writes templates at real size"
    );
    CLI::App& templates = *commands.templates;
    templates.add_option("CASE", words.templates.case_file, "case file of the part");
    templates.add_option("--out", words.out, "folder to write into");
    templates.add_option(
        "--depth", words.templates.depth, "wanted flange depth, formed (that of the case)"
    );
    templates.add_option(
        "--within", words.templates.within, "largest miss of the depth that will do (0.4 mm)"
    );
    templates.add_option("--paper", words.templates.paper, "of the PDF: A4 or letter (A4)");
    templates.add_flag(
        "--by-hand", words.templates.is_by_hand, "take the development by hand, form nothing"
    );
    templates.add_option("--threads", words.threads, "processor cores to use (all)");
    templates.footer("Example:\n  flangewright templates cases/s_curve/case.toml --out templates");
}

void declare_log(Commands& commands, RawWords& words) {
    commands.log =
        commands.app.add_subcommand("log", "Sets what you measured beside what was predicted");
    CLI::App& log = *commands.log;
    log.add_option("CASE", words.log.case_file, "case file of a part that was run");
    log.add_option("--measured", words.log.measured, "table of readings, see docs/build-log.md");
    log.add_option("--template", words.log.template_file, "write a table to fill in, here");
    log.add_option("--out", words.out, "folder of the run's results (CASE-result beside the case)");
    log.add_option("--lot", words.log.lot, "of the sheet (as the case says in [log])");
    log.add_option("--part", words.log.part, "which piece, if you made several from one case");
    log.add_flag(
        "--store-edge-limit",
        words.log.stores_limit,
        "put what the edge bore into your own sheet, if it says something new"
    );
    log.footer("Example:\n  flangewright log cases/demo/case.toml --template measured.csv\n"
               "  flangewright log cases/demo/case.toml --measured measured.csv");
}

void declare(Commands& commands, RawWords& words) {
    commands.app.set_version_flag("--version", "flangewright " + program_version());
    commands.app.footer("Example:\n  flangewright check cases/demo/case.toml\n\n"
                        "Exit codes: 0 done, 2 wrong input, 3 no equilibrium (what was reached is "
                        "kept),\n4 trouble outside (disk, rights), 5 no answer within the bounds, "
                        "70 our own error,\n"
                        "130 interrupted.");
    declare_run(commands, words);
    declare_compare(commands, words);
    commands.check =
        commands.app.add_subcommand("check", "Checks a case file and works the job out by hand");
    commands.check->add_option("CASE", words.check_case, "case file");
    commands.check->footer("Example:\n  flangewright check cases/demo/case.toml");
    declare_materials(commands, words);
    declare_fit(commands, words.fit);
    declare_coupon(commands, words);
    declare_solve_for(commands, words);
    declare_templates(commands, words);
    declare_log(commands, words);
    for (CLI::App* command :
         {commands.run,
          commands.compare,
          commands.check,
          commands.materials,
          commands.coupon_write,
          commands.coupon_read,
          commands.solve_for,
          commands.templates,
          commands.log}) {
        command->add_option("--sheets", words.sheets, sheets_note);
    }
    commands.app.allow_extras();
    for (CLI::App* command : commands.all()) {
        command->allow_extras();
    }
}

std::vector<std::string> known_words(const CLI::App& app) {
    std::vector<std::string> words;
    for (const CLI::Option* option : app.get_options()) {
        if (!option->get_lnames().empty()) {
            words.push_back("--" + option->get_lnames().front());
        }
    }
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        words.push_back(command->get_name());
    }
    return words;
}

std::optional<OnlyText> surplus_word(const CLI::App& app, const std::string& asked) {
    const std::vector<std::string> surplus = app.remaining();
    if (surplus.empty()) {
        return std::nullopt;
    }
    const std::vector<std::string> known = known_words(app);
    const auto nearest = key_file::nearest_word(surplus.front(), known);
    return wrong(
        asked,
        key_file::quoted_excerpt(surplus.front()),
        key_file::listed(known),
        nearest ? "write " + *nearest : "see \"" + asked + " --help\""
    );
}

OnlyText no_case(const std::string& command) {
    return wrong(
        "CASE", "nothing", "the path of a case file", "write flangewright " + command + " CASE"
    );
}

Result<Arguments, OnlyText> run_arguments(const RawWords& words) {
    if (words.run_case.empty()) {
        return tl::unexpected(no_case("run"));
    }
    RunArguments run;
    run.case_file = words.run_case;
    run.with_pictures = !words.no_pictures;
    run.with_even_drive = !words.no_even_drive;
    run.with_remedies = !words.no_remedies;
    run.resumes = words.resume || !words.from.empty();
    if (!words.from.empty()) {
        run.from = words.from;
    }
    run.out = path_if_any(words.out);
    run.sheets = path_if_any(words.sheets);
    const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
    if (!n_threads) {
        return tl::unexpected(n_threads.error());
    }
    run.n_threads = *n_threads;
    return run;
}

Result<Arguments, OnlyText> whole_compare_arguments(const RawWords& words) {
    if (words.compare.cases.empty()) {
        return tl::unexpected(no_case("compare"));
    }
    Result<CompareArguments, OnlyText> compare = compare_arguments(words.compare);
    const Result<int, OnlyText> threads = n_threads_of(words.threads);
    if (!compare || !threads) {
        return tl::unexpected(compare ? threads.error() : compare.error());
    }
    compare->n_at_once = *threads;
    compare->with_pictures = !words.no_pictures;
    compare->with_even_drive = !words.no_even_drive;
    compare->with_remedies = !words.no_remedies;
    compare->out = path_if_any(words.out);
    compare->sheets = path_if_any(words.sheets);
    return std::move(*compare);
}

/// As it is asked for: "flangewright coupon read".
std::string full_name(const CLI::App& command) {
    const CLI::App* parent = command.get_parent();
    return parent == nullptr ? "flangewright" : full_name(*parent) + " " + command.get_name();
}

Result<Arguments, OnlyText> coupon_write_arguments(const RawWords& words) {
    if (words.coupon_case.empty()) {
        return tl::unexpected(no_case("coupon write"));
    }
    if (words.out.empty()) {
        return tl::unexpected(wrong(
            "--out",
            "nothing",
            "the folder to write into",
            "write flangewright coupon write CASE --out FOLDER"
        ));
    }
    return CouponWriteArguments{words.coupon_case, words.out, path_if_any(words.sheets)};
}

Result<Arguments, OnlyText> coupon_arguments(const Commands& commands, const RawWords& words) {
    if (commands.coupon_read->parsed()) {
        return coupon_read_arguments(words.coupon_read, words.out, words.sheets);
    }
    if (commands.coupon_write->parsed()) {
        return coupon_write_arguments(words);
    }
    return tl::unexpected(
        wrong("coupon", "nothing", "write or read", "see \"flangewright coupon --help\"")
    );
}

Result<Arguments, OnlyText> solve_for_arguments_of(const RawWords& words) {
    Result<SolveForArguments, OnlyText> arguments = solve_for_arguments(words.solve_for);
    const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
    if (!arguments || !n_threads) {
        return tl::unexpected(arguments ? n_threads.error() : arguments.error());
    }
    arguments->n_threads = *n_threads;
    arguments->out = path_if_any(words.out);
    arguments->sheets = path_if_any(words.sheets);
    arguments->with_pictures = !words.no_pictures;
    return *arguments;
}

Result<Arguments, OnlyText> chosen(const Commands& commands, const RawWords& words) {
    if (const auto problem = surplus_word(commands.app, "flangewright")) {
        return tl::unexpected(*problem);
    }
    for (const CLI::App* command : commands.all()) {
        if (command->parsed()) {
            if (const auto problem = surplus_word(*command, full_name(*command))) {
                return tl::unexpected(*problem);
            }
        }
    }
    if (commands.run->parsed()) {
        return run_arguments(words);
    }
    if (commands.compare->parsed()) {
        return whole_compare_arguments(words);
    }
    if (commands.check->parsed()) {
        return words.check_case.empty()
            ? Result<Arguments, OnlyText>(tl::unexpected(no_case("check")))
            : CheckArguments{words.check_case, path_if_any(words.sheets)};
    }
    if (commands.materials->parsed()) {
        return MaterialsArguments{
            words.material.empty() ? std::nullopt : std::optional(words.material),
            path_if_any(words.sheets),
            path_if_any(words.picture)};
    }
    if (commands.fit->parsed()) {
        return fit_arguments(words.fit);
    }
    if (commands.coupon->parsed()) {
        return coupon_arguments(commands, words);
    }
    if (commands.solve_for->parsed()) {
        return solve_for_arguments_of(words);
    }
    if (commands.templates->parsed()) {
        const Result<int, OnlyText> n_threads = n_threads_of(words.threads);
        return n_threads ? templates_arguments(words.templates, words.out, words.sheets, *n_threads)
                         : tl::unexpected(n_threads.error());
    }
    if (commands.log->parsed()) {
        return log_arguments(words.log, words.out, words.sheets);
    }
    return tl::unexpected(wrong(
        "command",
        "nothing",
        "run, compare, check, materials, fit, coupon, solve-for, templates or log",
        "see \"flangewright --help\""
    ));
}

OptionWords words_of(const CLI::Option& option) {
    OptionWords words;
    for (const std::string& name : option.get_snames()) {
        words.names.push_back("-" + name);
    }
    for (const std::string& name : option.get_lnames()) {
        words.names.push_back("--" + name);
    }
    words.is_positional = words.names.empty();
    if (words.is_positional) {
        words.names.push_back(option.get_name());
    }
    words.meaning = option.get_description();
    words.takes_value = option.get_items_expected_max() > 0;
    words.takes_many = option.get_items_expected_max() > 1;
    return words;
}

CommandWords words_of(const CLI::App& app) {
    CommandWords words{app.get_name(), app.get_description(), app.get_footer(), {}, {}};
    for (const CLI::Option* option : app.get_options()) {
        words.options.push_back(words_of(*option));
    }
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        words.commands.push_back(words_of(*command));
    }
    return words;
}

} // namespace

CommandWords command_tree() {
    Commands commands;
    RawWords raw;
    declare(commands, raw);
    return words_of(commands.app);
}

OnlyText wrong(std::string key, std::string found, std::string allowed, std::string remedy) {
    return {
        bad_input,
        key_file::line_for(
            {"command line",
             0,
             0,
             std::move(key),
             std::move(found),
             std::move(allowed),
             std::move(remedy)}
        ) + "\n"};
}

std::optional<std::filesystem::path> path_if_any(const std::string& word) {
    return word.empty() ? std::nullopt : std::optional<std::filesystem::path>(word);
}

std::string program_version() {
    return FLANGEWRIGHT_VERSION;
}

Result<Arguments, OnlyText> read_arguments(const std::vector<std::string>& words) {
    Commands commands;
    RawWords raw;
    declare(commands, raw);
    std::vector<std::string> reversed(words.rbegin(), words.rend()); // as the library wants them
    try {
        commands.app.parse(reversed);
    } catch (const CLI::Success& wanted) { // help or version
        std::ostringstream text;
        commands.app.exit(wanted, text, text);
        return tl::unexpected(OnlyText{done, text.str()});
    } catch (const CLI::ParseError&) {
        return tl::unexpected(wrong(
            "option",
            words.empty() ? "nothing" : key_file::quoted_excerpt(words.back()),
            "each option with its value, and once",
            "see \"flangewright --help\""
        ));
    }
    return chosen(commands, raw);
}

} // namespace flangewright::command_line
