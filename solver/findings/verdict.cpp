#include "solver/findings/verdict.hpp"

#include "solver/findings/edge_limit.hpp"
#include "solver/findings/interior_neck.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <utility>

namespace flangewright::findings {

namespace {

constexpr double largest_sure_share = 0.5; // without a coupon or published data
// An edge stretched no more than the offset at which yield is quoted can't split in any sheet.
constexpr double harmless_stretch = 0.002;
// Tables name gauges in fractions, sheet is sold in decimals: 1/32 in is 0.032 in to the trade
// (2.4 % apart), .063 and .064 are one.
constexpr double same_gauge_share = 0.03;

/// Largest engineering strain of the outer fibre, mid-surface kept.
double strain_of_radius(double radius_over_thickness) {
    return uneven_bend / (2 * radius_over_thickness + 1);
}

// Shares of a bend at the tabulated radius itself may round to either side of 1.
constexpr double rounding = 1e-9;

// In thicknesses: a sharper bend than this is called sharp.
constexpr double smallest_told_radius = 0.05;

/// Radii of a bend table keep their own distance from a crack (common practice, no source): a bend
/// is never called close to one.
double close_from(const std::string& place, double close_share) {
    return is_bend(place) ? 1 : close_share;
}

bool is_sure(material::DataGrade grade) {
    return grade == material::DataGrade::coupon || grade == material::DataGrade::published;
}

double share_or_none(const LimitUse& use) {
    return use.share.value_or(-1);
}

/// A cut edge that is stretched by a log strain along itself, finished so.
LimitUse use_of_cut_edge(
    const job::Job& job,
    std::string place,
    double strain,
    std::optional<material::EdgeFinish> finish
) {
    const EdgeLimit limit = edge_limit(job.sheet.material, finish);
    LimitUse use;
    use.place = std::move(place);
    use.is_cut_edge = true;
    use.limit_of = limit.what;
    use.reached = std::expm1(strain);
    use.is_needed = use.reached > harmless_stretch;
    use.source = limit.bears.source;
    if (limit.bears.value && *limit.bears.value > 0) {
        use.allowed = limit.bears.value;
        use.grade = limit.bears.grade;
        use.share = std::max(0.0, use.reached) / *limit.bears.value;
    } else if (!use.is_needed) {
        use.share = 0;
    }
    use.word = word_of_limit(use, job.close_share);
    return use;
}

/// Number of steps, from the first, that end with the edge as it was cut.
std::size_t n_before_trim(const job::Job& job, std::size_t n_steps) {
    const auto trim = std::ranges::find(job.steps, job::StepKind::trim);
    return std::min(n_steps, static_cast<std::size_t>(trim - job.steps.begin()));
}

/// The edge as it was cut, or as it was trimmed, whichever uses more of its limit.
LimitUse use_of_edge(const job::Job& job, std::span<const PartFindings> steps) {
    const auto use_of = [&](std::span<const PartFindings> some, auto finish) {
        double strain = some.empty() ? 0 : some.front().edge_tension_used;
        for (const PartFindings& step : some) {
            strain = std::max(strain, step.edge_tension_used);
        }
        return use_of_cut_edge(job, edge_place, strain, finish);
    };
    const std::size_t n_as_cut = n_before_trim(job, steps.size());
    LimitUse as_cut = use_of(steps.first(n_as_cut), job.blank.edge_finish);
    if (n_as_cut == steps.size()) {
        return as_cut;
    }
    LimitUse trimmed = use_of(steps.subspan(n_as_cut), job.trimmed_edge_finish);
    const bool is_worse = std::pair(trimmed.is_needed, share_or_none(trimmed))
        > std::pair(as_cut.is_needed, share_or_none(as_cut));
    return is_worse ? trimmed : as_cut;
}

/// Of the rim that stretches most, if there is one.
std::optional<LimitUse> use_of_rims(const job::Job& job, std::span<const PartFindings> steps) {
    const OpeningFindings* worst = nullptr;
    for (const PartFindings& step : steps) {
        for (const OpeningFindings& opening : step.openings) {
            if (worst == nullptr || opening.tension_used > worst->tension_used) {
                worst = &opening;
            }
        }
    }
    if (worst == nullptr) {
        return std::nullopt;
    }
    std::string place = fmt::format("rim of {} {}", word_for(worst->kind), worst->number);
    return use_of_cut_edge(job, std::move(place), worst->tension_used, job.blank.edge_finish);
}

/// One of the bends: round a nose, with the largest log strain computed there.
struct BendReached {
    const char* place;
    double nose_radius = 0;
    double strain = 0;
};

LimitUse use_of_bend(const job::Job& job, const BendReached& bend) {
    const double t = job.sheet.thickness;
    const material::SheetMaterial& material = job.sheet.material;
    LimitUse use;
    use.place = bend.place;
    use.reached = std::max(t / (2 * bend.nose_radius + t), std::expm1(bend.strain));
    use.source = material.bend_source;
    use.allowed = allowed_bend_strain(material.bend_limits, t);
    if (use.allowed) {
        use.grade = material.bend_grade;
        use.share = use.reached / *use.allowed;
    }
    use.word = word_of_limit(use, job.close_share);
    return use;
}

/// Empty where the drawing names no least thickness. What is cut off on the way need not keep it.
std::optional<LimitUse> use_of_thickness(const job::Job& job, std::span<const PartFindings> steps) {
    if (!job.sheet.least_thickness || steps.empty()) {
        return std::nullopt;
    }
    LimitUse use;
    use.place = thickness_place;
    use.reached = std::max(0.0, steps.back().thinning_most);
    use.allowed = 1 - *job.sheet.least_thickness / job.sheet.thickness;
    use.share = use.reached / *use.allowed;
    use.grade = material::DataGrade::published;
    use.source = "the drawing's least thickness, as the case states it";
    use.word = word_of_limit(use, job.close_share);
    return use;
}

VerdictWord worst_word(const std::vector<LimitUse>& limits) {
    VerdictWord worst = VerdictWord::holds;
    for (const LimitUse& use : limits) {
        worst = rank_of(use.word) > rank_of(worst) ? use.word : worst;
    }
    return worst;
}

/// Whether this limit alone would give the verdict's word.
bool governs(const LimitUse& use, VerdictWord word) {
    return use.word == word && (use.is_needed || word != VerdictWord::holds);
}

/// Worst grade of the limits that govern. A drawing's limit has none: alone it leaves that of the
/// curve that the thinning was computed with.
material::DataGrade grade_of(const Verdict& verdict, material::DataGrade curve_grade) {
    std::optional<material::DataGrade> worst;
    for (const LimitUse& use : verdict.limits) {
        if (use.place != thickness_place && governs(use, verdict.word)) {
            worst = std::max(worst.value_or(use.grade), use.grade);
        }
    }
    const bool has_thickness = verdict.limits.back().place == thickness_place;
    return worst.value_or(has_thickness ? curve_grade : material::DataGrade::coupon);
}

/// Fills word, share and grade; returns the limit the sentence speaks of.
const LimitUse& weigh(Verdict& verdict, material::DataGrade curve_grade) {
    verdict.word = worst_word(verdict.limits);
    verdict.grade = grade_of(verdict, curve_grade);
    const auto weight = [&](const LimitUse& use) {
        return std::pair(governs(use, verdict.word), share_or_none(use));
    };
    const LimitUse& spoken = *std::ranges::max_element(verdict.limits, {}, weight);
    if (verdict.word == VerdictWord::unknown) {
        // The largest share that is known still tells something.
        for (const LimitUse& use : verdict.limits) {
            if (use.is_needed && share_or_none(use) > verdict.share_used.value_or(-1)) {
                verdict.share_used = use.share;
            }
        }
    } else {
        verdict.share_used = spoken.share;
    }
    return spoken;
}

std::string reached_in_words(const LimitUse& use) {
    if (use.place == thickness_place) {
        return fmt::format("The part is thinned by {:.1f} % at its thinnest", 100 * use.reached);
    }
    return fmt::format("The {} stretches by {:.1f} %", use.place, 100 * use.reached);
}

/// "sharp bend", or "radius of 1.5 t" with the stretch it means.
std::string allowed_bend_in_words(double allowed) {
    return is_sharp_bend(allowed)
        ? "a sharp bend, radius 0"
        : fmt::format(
            "a radius of {:.1f} times the thickness, which stretches it by up to {:.1f} %",
            radius_over_thickness_of(allowed),
            100 * allowed
        );
}

std::string with_capital(std::string words) {
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    return words;
}

std::string allowed_in_words(const LimitUse& use) {
    const std::string data = material::word_for(use.grade) + " data";
    if (use.place == interior_place) {
        return fmt::format(
            "Strained on as it was, it necks there near {:.1f} % (from {}, {})",
            100 * use.allowed.value_or(0),
            use.limit_of,
            data
        );
    }
    if (use.place == thickness_place) {
        return fmt::format("The drawing allows {:.1f} %", 100 * use.allowed.value_or(0));
    }
    const bool has_finish = use.limit_of.find("edge") != std::string::npos;
    if (use.is_cut_edge && has_finish) {
        return fmt::format(
            "{} of this sheet bears {:.1f} % ({})",
            with_capital(use.limit_of),
            100 * *use.allowed,
            data
        );
    }
    return use.is_cut_edge
        ? fmt::format(
            "This sheet bears {:.1f} % (uniform elongation, {})", 100 * *use.allowed, data
        )
        : fmt::format("The bend table allows {} ({})", allowed_bend_in_words(*use.allowed), data);
}

std::string known_limit_in_words(const LimitUse& use) {
    return fmt::format(
        "{}. {}, so {:.0f} % of the limit is used",
        reached_in_words(use),
        allowed_in_words(use),
        100 * *use.share
    );
}

std::string unknown_limit_in_words(const LimitUse& use) {
    const char* missing = use.is_cut_edge ? "the sheet's uniform elongation isn't known"
                                          : "no bend table covers this sheet and thickness";
    return fmt::format("{}, but {}", reached_in_words(use), missing);
}

/// What holds for the edge of a shrink flange, whatever else is said.
std::string about_shrinking(const job::Job& job, const LimitUse& edge) {
    if (std::isinf(job.blank.line.convex_radius())) {
        return {};
    }
    if (job.blank.line.curve() == outline::Curve::mixed) {
        return ". Wrinkling where the edge shrinks isn't judged";
    }
    if (edge.is_needed) {
        return ". Wrinkling of the shrinking edge isn't judged";
    }
    return fmt::format(
        ". The free edge is pressed together along itself ({:.1f} %): it can't split by stretch, "
        "but "
        "whether it wrinkles isn't judged",
        100 * edge.reached
    );
}

std::string because(const job::Job& job, const Verdict& verdict, const LimitUse& spoken) {
    std::string sentence = spoken.share && spoken.allowed ? known_limit_in_words(spoken)
                                                          : unknown_limit_in_words(spoken);
    const bool is_held_back = verdict.word == VerdictWord::close && !is_sure(spoken.grade)
        && *spoken.share < job.close_share;
    if (is_held_back) {
        sentence += ". Above half the limit that can't be called safe without a coupon test or "
                    "published data for this sheet";
    }
    if (!spoken.beside.empty()) {
        sentence += ". " + spoken.beside;
    }
    if (verdict.word == VerdictWord::too_thin) {
        sentence += ". It is thinner than the drawing allows; whether it splits the other limits "
                    "tell";
    }
    sentence += about_shrinking(job, verdict.limits.front());
    return sentence + ".";
}

} // namespace

bool is_bend(const std::string& place) {
    return place == bend_place || place == lip_bend_place;
}

bool is_doubtful(double share, material::DataGrade grade) {
    return share > largest_sure_share && !is_sure(grade);
}

double radius_over_thickness_of(double bend_strain) {
    return bend_strain > 0 ? std::max(0.0, 0.5 * (uneven_bend / bend_strain - 1))
                           : std::numeric_limits<double>::infinity();
}

bool is_sharp_bend(double bend_strain) {
    return radius_over_thickness_of(bend_strain) < smallest_told_radius;
}

std::optional<double>
allowed_bend_strain(std::span<const material::BendLimit> limits, double thickness) {
    const auto same_gauge = std::ranges::find_if(limits, [&](const material::BendLimit& row) {
        return std::abs(thickness - row.thickness) <= same_gauge_share * row.thickness;
    });
    if (same_gauge != limits.end()) {
        return strain_of_radius(same_gauge->radius_over_thickness);
    }
    const auto above = std::ranges::find_if(limits, [&](const material::BendLimit& row) {
        return row.thickness > thickness;
    });
    if (above == limits.end()) {
        return std::nullopt;
    }
    double r_over_t = above->radius_over_thickness;
    if (above != limits.begin()) {
        r_over_t = std::max(r_over_t, std::prev(above)->radius_over_thickness);
    }
    return strain_of_radius(r_over_t);
}

double share_that_holds(const std::string& place, material::DataGrade grade, double close_share) {
    const double of_place = close_from(place, close_share);
    return is_sure(grade) ? of_place : std::min(of_place, largest_sure_share);
}

VerdictWord word_of_limit(const LimitUse& use, double close_share) {
    if (!use.is_needed) {
        return VerdictWord::holds;
    }
    if (!use.share) {
        return VerdictWord::unknown;
    }
    if (*use.share > 1 + rounding) {
        return use.place == thickness_place ? VerdictWord::too_thin : VerdictWord::splits;
    }
    const bool is_close = !is_bend(use.place) && *use.share >= close_share;
    return is_close || is_doubtful(*use.share, use.grade) ? VerdictWord::close : VerdictWord::holds;
}

int rank_of(VerdictWord word) {
    constexpr std::array order{
        VerdictWord::holds,
        VerdictWord::close,
        VerdictWord::unknown,
        VerdictWord::too_thin,
        VerdictWord::splits};
    return static_cast<int>(std::ranges::find(order, word) - order.begin());
}

Verdict judge(const job::Job& job, std::span<const PartFindings> steps) {
    Verdict verdict;
    BendReached bend{bend_place, job.block.nose_radius};
    std::optional<BendReached> lip;
    for (const PartFindings& step : steps) {
        bend.strain = std::max(bend.strain, step.bend_strain_used);
        if (step.lip) {
            lip = lip.value_or(BendReached{lip_bend_place, job.return_bend->nose_radius});
            lip->strain = std::max(lip->strain, step.lip->bend_strain_used);
        }
    }
    verdict.limits = {use_of_edge(job, steps), use_of_bend(job, bend)};
    if (lip) {
        verdict.limits.push_back(use_of_bend(job, *lip));
    }
    if (std::optional<LimitUse> rims = use_of_rims(job, steps)) {
        verdict.limits.push_back(std::move(*rims));
    }
    if (std::optional<LimitUse> interior = use_of_interior(steps)) {
        interior->word = word_of_limit(*interior, job.close_share);
        verdict.limits.push_back(*std::move(interior));
    }
    if (std::optional<LimitUse> thickness = use_of_thickness(job, steps)) {
        verdict.limits.push_back(*std::move(thickness));
    }
    const LimitUse& spoken = weigh(verdict, job.sheet.material.curve_grade);
    verdict.because = because(job, verdict, spoken);
    return verdict;
}

} // namespace flangewright::findings
