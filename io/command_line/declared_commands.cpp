#include "io/command_line/declared_commands.hpp"

#include "io/command_line/command_line.hpp"

namespace flangewright::command_line {

namespace {

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
    commands.materials->add_option(
        "--picture",
        words.picture,
        std::string(picture_note) + ", the local neck into one named FILE_neck.png"
    );
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

} // namespace

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

} // namespace flangewright::command_line
