#include "io/compare/judgement.hpp"

#include "io/tables/shown_length.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::compare {

namespace {

using tables::shown_number;

constexpr const char* last_word =
    " Drawing and approved data decide what may be changed; prove it on a trial piece.";

// Words of a verdict on known limits, from best to worst.
constexpr std::array<const char*, 4> judged_words{"holds", "close", "too thin", "splits"};

/// Lower is better; an unknown limit comes last.
std::size_t rank_of(const RunRecord& record) {
    const auto found = std::ranges::find(judged_words, record.verdict);
    return static_cast<std::size_t>(found - judged_words.begin());
}

bool is_better(const RunRecord& one, const RunRecord& other) {
    if (rank_of(one) != rank_of(other)) {
        return rank_of(one) < rank_of(other);
    }
    return one.share.value.value_or(HUGE_VAL) < other.share.value.value_or(HUGE_VAL);
}

std::string percent(double share) {
    return shown_number(100 * share, 0) + " %";
}

std::string name_of(const std::vector<ComparedRun>& runs, std::size_t place) {
    return fmt::format("{} ({})", place + 1, runs[place].label);
}

/// Done ones with the best one's word whose share can't be told from its, the best included.
std::vector<std::size_t> equals_of(const std::vector<ComparedRun>& runs, std::size_t best) {
    std::vector<std::size_t> equals;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunRecord& record = runs[i].record;
        const bool is_equal = record.end == RunEnd::done
            && rank_of(record) == rank_of(runs[best].record)
            && difference(record.share, runs[best].record.share) == Difference::within_errors;
        if (i == best || is_equal) {
            equals.push_back(i);
        }
    }
    return equals;
}

/// A figure in which less is better, with its name.
struct SecondThought {
    const char* words;
    Figure RunRecord::*figure;
    const char* unit;
    int n_decimals;
};

/// Among variants that use as much of the limit, the one that lies flatter or springs back less.
std::string
second_thought(const std::vector<ComparedRun>& runs, const std::vector<std::size_t>& equals) {
    constexpr std::array<SecondThought, 2> thoughts{
        {{"its web lifts least", &RunRecord::web_lift_mm, "mm", 2},
         {"it springs back least", &RunRecord::springback_deg, "deg", 1}}};
    for (const SecondThought& thought : thoughts) {
        const auto size = [&](std::size_t i) {
            return std::abs((runs[i].record.*thought.figure).value.value_or(HUGE_VAL));
        };
        const std::size_t least = *std::ranges::min_element(equals, {}, size);
        const Figure& of_least = runs[least].record.*thought.figure;
        const bool stands_out = std::ranges::all_of(equals, [&](std::size_t i) {
            return i == least
                || difference(runs[i].record.*thought.figure, of_least)
                == Difference::beyond_errors;
        });
        if (of_least.value && stands_out) {
            return fmt::format(
                "; of these take {}, since {} ({} {})",
                name_of(runs, least),
                thought.words,
                shown_number(*of_least.value, thought.n_decimals),
                thought.unit
            );
        }
    }
    return fmt::format(
        "; take the one that is easiest to make, or keep {}", name_of(runs, equals.front())
    );
}

/// The done run that comes next after the best, if any.
std::optional<std::size_t> runner_up(const std::vector<ComparedRun>& runs, std::size_t best) {
    std::optional<std::size_t> next;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (i != best && runs[i].record.end == RunEnd::done
            && (!next || is_better(runs[i].record, runs[*next].record))) {
            next = i;
        }
    }
    return next;
}

/// How far the best is from the next, and whether that means something.
std::string margin(const std::vector<ComparedRun>& runs, std::size_t best, std::size_t next) {
    const Figure& least = runs[best].record.share;
    const Figure& other = runs[next].record.share;
    const std::string words = fmt::format(
        "the next best, {}, {} with {}",
        name_of(runs, next),
        runs[next].record.verdict == "close" ? "is close" : runs[next].record.verdict,
        percent(other.value.value_or(NAN))
    );
    switch (difference(least, other)) {
    case Difference::beyond_errors:
        return words + ", and the difference is larger than the error bars";
    case Difference::within_errors:
        return words + ", but the difference is smaller than the error bars";
    case Difference::unknown:
        break;
    }
    return words + "; how sure the difference is, is not known";
}

std::string without_share(const std::vector<ComparedRun>& runs) {
    std::optional<std::size_t> least;
    const auto stretch = [&](std::size_t i) {
        return std::abs(runs[i].record.edge_stretch_percent.value.value_or(HUGE_VAL));
    };
    for (std::size_t i = 0; i < runs.size(); ++i) {
        if (runs[i].record.end == RunEnd::done && (!least || stretch(i) < stretch(*least))) {
            least = i;
        }
    }
    return fmt::format(
        "No advice on splitting: what this sheet bears is not known. The edge is strained least in "
        "{} ({} %).",
        name_of(runs, *least),
        shown_number(runs[*least].record.edge_stretch_percent.value.value_or(NAN), 1)
    );
}

std::string verb_for(const RunRecord& record, bool is_one) {
    if (record.verdict == "holds") {
        return is_one ? "it holds" : "hold";
    }
    if (record.verdict == "close") {
        return is_one ? "it is close to the limit" : "are close to the limit";
    }
    if (record.verdict == "too thin") {
        return is_one ? "it gets too thin" : "get too thin";
    }
    return is_one ? "it splits" : "split";
}

/// What stands before the reason: take it, or better none of them.
std::string opening(const std::vector<ComparedRun>& runs, std::size_t best) {
    const RunRecord& record = runs[best].record;
    if (record.verdict == "holds") {
        return "Take " + name_of(runs, best) + ": ";
    }
    return "None of these holds. The nearest to it is " + name_of(runs, best) + ": ";
}

std::string data_words(const RunRecord& record) {
    return record.data_grade == "coupon" ? ""
                                         : " The limit is as good as its data: "
            + (record.data_grade.empty() ? std::string("unknown") : record.data_grade) + ".";
}

std::string by_share(const std::vector<ComparedRun>& runs, std::size_t best) {
    const RunRecord& record = runs[best].record;
    const std::vector<std::size_t> equals = equals_of(runs, best);
    const std::string help = record.verdict == "holds" || record.helps.empty()
        ? ""
        : " What would help it most: " + record.helps + " of the limit used.";
    if (equals.size() > 1) {
        std::vector<std::string> names;
        names.reserve(equals.size());
        for (const std::size_t place : equals) {
            names.push_back(std::to_string(place + 1));
        }
        const bool holds = record.verdict == "holds";
        return fmt::format(
                   "{}Variants {} {} and can't be told apart by how much of the limit they use "
                   "({} in the least): the differences are smaller than the error bars{}.",
                   holds ? "" : "None of these holds. ",
                   fmt::join(names, ", "),
                   verb_for(record, false),
                   percent(*record.share.value),
                   second_thought(runs, equals)
               )
            + help + data_words(record);
    }
    const std::optional<std::size_t> next = runner_up(runs, best);
    const bool has_share = next && runs[*next].record.share.value;
    return opening(runs, best) + verb_for(record, true) + " with " + percent(*record.share.value)
        + " of the limit used" + (has_share ? "; " + margin(runs, best, *next) : "") + "." + help
        + data_words(record);
}

} // namespace

Difference difference(const Figure& one, const Figure& other) {
    if (!one.value || !other.value || (!one.error && !other.error)) {
        return Difference::unknown;
    }
    const double error = std::hypot(one.error.value_or(0), other.error.value_or(0));
    return std::abs(*one.value - *other.value) <= error ? Difference::within_errors
                                                        : Difference::beyond_errors;
}

std::optional<std::size_t> best_run(const std::vector<ComparedRun>& runs) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunRecord& record = runs[i].record;
        if (record.end == RunEnd::done && (!best || is_better(record, runs[*best].record))) {
            best = i;
        }
    }
    return best;
}

std::string advice(const std::vector<ComparedRun>& runs) {
    const std::optional<std::size_t> best = best_run(runs);
    const auto n_done = std::ranges::count(runs, RunEnd::done, [](const ComparedRun& run) {
        return run.record.end;
    });
    if (!best) {
        return "No advice: no variant came to its end.";
    }
    if (n_done == 1) {
        return fmt::format(
            "No advice: only {} came to its end, so there is nothing to compare it with.",
            name_of(runs, *best)
        );
    }
    const RunRecord& record = runs[*best].record;
    const std::string told = record.share.value && rank_of(record) < judged_words.size()
        ? by_share(runs, *best)
        : without_share(runs);
    return told + last_word;
}

} // namespace flangewright::compare
