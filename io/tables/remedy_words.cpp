#include "io/tables/remedy_words.hpp"

#include "io/sheet_library/softer_tempers.hpp"
#include "io/tables/shown_length.hpp"
#include "mesh/base/check.hpp"

#include <fmt/format.h>

namespace flangewright::tables {

namespace {

using process::Remedy;
using process::RemedyKind;

std::string finish_word(const Remedy& remedy) {
    return remedy.finish ? material::word_for(*remedy.finish) : "better finished";
}

/// How the strength of the sheet as drawn comes back: tempers T by heat treatment, W of its own
/// accord by ageing, H not at all, since rolling made them hard. Source: common practice, no
/// source.
const char* strength_words(const Remedy& remedy) {
    const auto temper = [](const std::string& sheet) {
        return sheet_library::alloy_and_temper_of(sheet).temper;
    };
    if (temper(remedy.sheet_now).starts_with('H')) {
        return "its strength came from rolling, and no heat treatment brings it back";
    }
    return temper(remedy.sheet).starts_with('W')
        ? "quenched and formed before it ages to its strength, to approved data"
        : "strength is restored only by heat treatment after forming, to approved data";
}

std::string change_words(const Remedy& remedy, units::LengthUnit unit) {
    const auto in_place_of = [&](const char* what) {
        return fmt::format(
            "{} {} in place of {}",
            what,
            shown_length(remedy.to, unit),
            shown_length(remedy.from, unit)
        );
    };
    switch (remedy.kind) {
    case RemedyKind::less_depth:
        return fmt::format(
            "Flange about {} less deep (its widest flat {} past the bend line, trim allowance "
            "included, in place of {})",
            shown_length(remedy.from - remedy.to, unit),
            brief_length(remedy.to, unit),
            brief_length(remedy.from, unit)
        );
    case RemedyKind::larger_nose:
        return in_place_of("Nose radius") + " (bend tangent line kept: the wall moves)";
    case RemedyKind::larger_plan_radius:
        return in_place_of("Bend line with a radius in plan of");
    case RemedyKind::better_edge:
        return fmt::format("Edge {} before forming", finish_word(remedy));
    case RemedyKind::better_trimmed_edge:
        return fmt::format("Trimmed edge {}", finish_word(remedy));
    case RemedyKind::anneal_first:
        return "Anneal before the return bend";
    case RemedyKind::turned_grain:
        return "Blank cut with the rolling direction turned by 90 deg";
    case RemedyKind::softer_temper:
        return fmt::format(
            "Sheet of {} in place of {} ({})",
            remedy.sheet,
            remedy.sheet_now,
            strength_words(remedy)
        );
    }
    check(false, "every kind of remedy has words");
    return {};
}

} // namespace

std::string word_for(RemedyKind kind) {
    switch (kind) {
    case RemedyKind::less_depth:
        return "less_depth";
    case RemedyKind::larger_nose:
        return "larger_nose";
    case RemedyKind::larger_plan_radius:
        return "larger_plan_radius";
    case RemedyKind::better_edge:
        return "better_edge";
    case RemedyKind::better_trimmed_edge:
        return "better_trimmed_edge";
    case RemedyKind::anneal_first:
        return "anneal_first";
    case RemedyKind::turned_grain:
        return "turned_grain";
    case RemedyKind::softer_temper:
        return "softer_temper";
    }
    check(false, "every kind of remedy has a word");
    return {};
}

std::vector<std::string> remedy_lines(const process::Remedies& remedies, units::LengthUnit unit) {
    std::vector<std::string> lines;
    for (const Remedy& remedy : remedies.helpful) {
        lines.push_back(fmt::format(
            "{}: {} % of the limit used, {}.",
            change_words(remedy, unit),
            shown_number(100 * remedy.share, 0),
            findings::word_for(remedy.word)
        ));
    }
    return lines;
}

std::string remedies_note(const process::Remedies& remedies) {
    const std::string about_edge = remedies.knows_finish
        ? ""
        : " The edge's finish is not stated, so a better one was not weighed: state it (edge in "
          "[blank]).";
    if (!remedies.is_slice_like_part()) {
        return fmt::format(
                   "The thin slice that changes are tried on uses {} % of the limit where the part "
                   "uses {} %: the part's ends, which feed metal in, or its openings decide, and "
                   "the slice has none. So no change of shape is told.",
                   shown_number(100 * remedies.share_of_model, 0),
                   shown_number(100 * remedies.share_as_run, 0)
               )
            + about_edge;
    }
    std::string note =
        remedies.helpful.empty() ? "None of the changes tried was found to help. " : "";
    note += fmt::format(
        "Each change alone was solved anew on a thin slice with a quick mesh; its share is the "
        "run's ({} %) times what it does to the slice's ({} %). A better edge needs no solve. {}",
        shown_number(100 * remedies.share_as_run, 0),
        shown_number(100 * remedies.share_of_model, 0),
        remedies.n_tempers > 0
            ? "Of softer tempers only those of the library were tried."
            : "Another temper was not tried: no softer one of this sheet is in the library."
    );
    if (remedies.n_failed > 0) {
        note += fmt::format(
            " {} found no balance of forces and {} left out.",
            remedies.n_failed == 1 ? "One change" : fmt::format("{} changes", remedies.n_failed),
            remedies.n_failed == 1 ? "is" : "are"
        );
    }
    return note + about_edge + " The drawing and approved data decide what may be changed.";
}

} // namespace flangewright::tables
