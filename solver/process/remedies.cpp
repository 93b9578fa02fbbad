#include "solver/process/remedies.hpp"

#include "solver/findings/flange_development.hpp"
#include "solver/findings/verdict.hpp"
#include "solver/process/slice.hpp"
#include "solver/process/slice_share.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <utility>

namespace flangewright::process {

namespace {

using findings::VerdictWord;

/// One kind of change, from small to large.
struct Ladder {
    RemedyKind kind = RemedyKind::less_depth;
    double from = 0;
    std::vector<double> rungs;
    double step = 0; ///< the change is told in multiples of it; 0: the rungs only
    std::function<void(job::Job&, double to)> apply;
};

struct Rung {
    std::size_t ladder = 0;
    double to = 0;
};

/// Keeps the depth that the job gives: other radii end up with other depths on the same flat.
void keep_depth(job::Job& changed, const job::Job& as_is) {
    const double more =
        findings::developed_flange_width(changed) - findings::developed_flange_width(as_is);
    if (as_is.blank.flange_depth > 0 && !as_is.return_bend && std::isfinite(more)) {
        changed.blank.flange_width += more;
    }
}

/// Narrower blanks, down to a straight part of three thicknesses. The lip and the trim allowance
/// keep their widths.
Ladder less_depth(const job::Job& slice) {
    const job::Blank& blank = slice.blank;
    const double kept = blank.trim_allowance + blank.lip_width + findings::bend_allowance(slice)
        + 3 * slice.sheet.thickness;
    Ladder ladder{RemedyKind::less_depth, blank.flange_width, {}, 0.5, {}};
    for (const double share : {0.25, 0.5, 1.0}) {
        if (blank.flange_width > kept) {
            ladder.rungs.push_back(blank.flange_width - share * (blank.flange_width - kept));
        }
    }
    ladder.apply = [](job::Job& job, double to) {
        job.blank.flange_depth -= job.blank.flange_width - to;
        job.blank.flange_width = to;
    };
    return ladder;
}

Ladder larger_nose(const job::Job& slice) {
    const double nose = slice.block.nose_radius;
    return {
        RemedyKind::larger_nose,
        nose,
        {1.5 * nose, 2 * nose},
        0,
        [slice](job::Job& job, double to) {
            job.block.nose_radius = to;
            keep_depth(job, slice);
        }};
}

/// Of the line where the slice was cut out; nothing for a straight line.
Ladder larger_plan_radius(const job::Job& slice) {
    const outline::Piece piece = slice.blank.line.pieces().front();
    if (piece.curvature == 0) {
        return {};
    }
    const double radius = 1 / std::abs(piece.curvature);
    return {
        RemedyKind::larger_plan_radius,
        radius,
        {1.25 * radius, 1.6 * radius, 2.5 * radius},
        1,
        [slice, piece](job::Job& job, double to) {
            job.blank.line =
                outline::BendLine::chain({{piece.length, std::copysign(1 / to, piece.curvature)}});
            keep_depth(job, slice);
        }};
}

/// Soft again before the lip is bent. Nothing where it is already, or without a lip.
Ladder anneal_first(const job::Job& slice) {
    const auto lip = std::ranges::find(slice.steps, job::StepKind::return_bend);
    const auto is_heat = [](job::StepKind kind) {
        return kind == job::StepKind::anneal || kind == job::StepKind::heat_treat;
    };
    if (lip == slice.steps.end() || std::any_of(slice.steps.begin(), lip, is_heat)) {
        return {};
    }
    return {RemedyKind::anneal_first, 0, {1}, 0, [](job::Job& job, double) {
                // Off the block, and back on it for the lip.
                if (job.annealed.hardening == nullptr) {
                    job.annealed = job.sheet.material; // as a case that says nothing of it
                }
                const auto at = std::ranges::find(job.steps, job::StepKind::release);
                const auto before_lip = std::ranges::find(job.steps, job::StepKind::return_bend);
                if (at < before_lip) {
                    job.steps.insert(at + 1, job::StepKind::anneal);
                } else {
                    job.steps.insert(
                        before_lip,
                        {job::StepKind::release, job::StepKind::anneal, job::StepKind::set_on_block}
                    );
                }
            }};
}

/// Told as the case counts it, from the line in the middle of the part; the slice lies elsewhere.
Ladder turned_grain(const job::Job& slice, double as_stated) {
    if (slice.sheet.material.yield == nullptr) {
        return {};
    }
    const double turned = as_stated + 0.5 * std::numbers::pi * (as_stated > 0 ? -1 : 1);
    const double to_slice = slice.sheet.rolling_direction - as_stated;
    return {RemedyKind::turned_grain, as_stated, {turned}, 0, [to_slice](job::Job& job, double to) {
                job.sheet.rolling_direction = to + to_slice;
            }};
}

/// Least soft first. The limits are those of the softer sheet; what its strength must come from is
/// the reader's to settle.
Ladder softer_temper(const job::Job& slice) {
    Ladder ladder{RemedyKind::softer_temper, 0, {}, 0, [](job::Job& job, double to) {
                      const auto rung = static_cast<std::size_t>(to) - 1;
                      job.sheet.material = job.sheet.softer_tempers.at(rung);
                  }};
    for (std::size_t i = 0; i < slice.sheet.softer_tempers.size(); ++i) {
        ladder.rungs.push_back(static_cast<double>(i + 1));
    }
    return ladder;
}

/// Tries changes on the slice, all that are asked for at a time.
class Trials {
public:
    Trials(const job::Job& job, const JobResult& run, int n_at_once, const Monitor& monitor)
        : slice_(slice_of(job, run.mesh, run.steps)), as_run_(run.verdict),
          close_share_(job.close_share), n_at_once_(n_at_once), monitor_(monitor) {
        for (Ladder& ladder : std::array{
                 less_depth(slice_),
                 larger_nose(slice_),
                 larger_plan_radius(slice_),
                 anneal_first(slice_),
                 turned_grain(slice_, job.sheet.rolling_direction),
                 softer_temper(slice_)}) {
            if (!ladder.rungs.empty()) {
                ladders_.push_back(std::move(ladder));
            }
        }
    }

    /// False when the slice as it is can't be solved.
    bool solve_as_is() {
        const Numbers answer = solve({}, true).front();
        as_is_ = answer.value_or(std::vector<double>{});
        return answer.has_value();
    }

    void try_all() {
        std::vector<Rung> rungs;
        for (std::size_t i = 0; i < ladders_.size(); ++i) {
            for (const double to : ladders_[i].rungs) {
                rungs.push_back({i, to});
            }
        }
        const std::vector<Numbers> answers = solve(rungs, false);
        for (std::size_t i = 0; i < rungs.size(); ++i) {
            take(rungs[i], answers[i]);
        }
    }

    /// The smallest change that brings `holds`, else the best; nothing where none helps.
    std::optional<Remedy> choose(std::size_t ladder) {
        const std::vector<Remedy>& tried = outcomes_[ladder];
        const auto enough = std::ranges::find(tried, VerdictWord::holds, &Remedy::word);
        if (enough == tried.end()) {
            const auto best = std::ranges::min_element(tried, {}, &Remedy::share);
            const bool helps =
                best != tried.end() && share_word(*best).is_better_than(word_and_share(as_run_));
            return helps ? std::optional(*best) : std::nullopt;
        }
        const double before = enough == tried.begin() ? ladders_[ladder].from : (enough - 1)->to;
        return ladders_[ladder].step > 0 ? narrowed(ladder, before, *enough) : *enough;
    }

    [[nodiscard]] std::size_t n_ladders() const { return ladders_.size(); }
    [[nodiscard]] int n_failed() const { return n_failed_; }
    [[nodiscard]] double share_of_slice() const {
        for (std::size_t i = 0; i < as_run_.limits.size(); ++i) {
            if (as_run_.limits[i].share == as_run_.share_used) {
                return share_in(as_is_, i);
            }
        }
        return 0;
    }

private:
    static ShareWord share_word(const Remedy& remedy) { return {remedy.word, remedy.share}; }

    std::vector<Numbers> solve(const std::vector<Rung>& rungs, bool with_as_is) {
        const std::size_t first = with_as_is ? 1 : 0;
        const int n = static_cast<int>(rungs.size() + first);
        const auto work = [&](int index) {
            job::Job changed = slice_;
            if (const auto i = static_cast<std::size_t>(index); i >= first) {
                const Rung& rung = rungs[i - first];
                ladders_[rung.ladder].apply(changed, rung.to);
            }
            return shares_on_slice(changed, as_run_);
        };
        const auto tell = [&](int n_done) {
            const double share = static_cast<double>(n_done) / n;
            monitor_.report({.step = "what would help", .share_done = with_as_is ? share : 1});
        };
        tell(0);
        return in_child_processes(n, n_at_once_, work, tell, monitor_.stop);
    }

    Remedy outcome(const Rung& rung, const std::vector<double>& answer) const {
        const ShareWord expected = expected_with(as_run_, close_share_, as_is_, answer);
        const Ladder& ladder = ladders_[rung.ladder];
        Remedy remedy{.kind = ladder.kind, .from = ladder.from, .to = rung.to};
        remedy.share = expected.share;
        remedy.word = expected.word;
        if (ladder.kind == RemedyKind::softer_temper) {
            remedy.sheet_now = slice_.sheet.material.name;
            remedy.sheet =
                slice_.sheet.softer_tempers.at(static_cast<std::size_t>(rung.to) - 1).name;
        }
        return remedy;
    }

    void take(const Rung& rung, const Numbers& answer) {
        outcomes_.resize(ladders_.size());
        if (answer) {
            outcomes_[rung.ladder].push_back(outcome(rung, *answer));
        } else {
            ++n_failed_;
        }
    }

    /// Halves twice between a change too small and one that is enough, then rounds to the step.
    Remedy narrowed(std::size_t ladder, double before, Remedy enough) {
        const double step = ladders_[ladder].step;
        const double way = enough.to > before ? 1 : -1;
        for (int i = 0; i < 3 && std::abs(enough.to - before) > step; ++i) {
            const double middle = 0.5 * (before + enough.to);
            // Rounded away from the job as it is: a larger change.
            const double to = way * std::ceil(way * middle / step) * step;
            if (way * (enough.to - to) <= 0) {
                break;
            }
            const Rung rung{ladder, to};
            const Numbers answer = solve({rung}, false).front();
            if (!answer) {
                break;
            }
            const Remedy now = outcome(rung, *answer);
            if (now.word == VerdictWord::holds) {
                enough = now;
            } else {
                before = to;
            }
        }
        return enough;
    }

    job::Job slice_;
    const findings::Verdict& as_run_;
    double close_share_;
    int n_at_once_;
    const Monitor& monitor_;
    std::vector<Ladder> ladders_;
    std::vector<std::vector<Remedy>> outcomes_; // per ladder, by growing change
    std::vector<double> as_is_;
    int n_failed_ = 0;
};

using Finish = std::optional<material::EdgeFinish>;

/// The next better finish that helps, judged on what the run reached.
std::optional<Remedy> better_edge(const job::Job& job, const JobResult& run, RemedyKind kind) {
    job::Job changed = job;
    Finish& finish =
        kind == RemedyKind::better_edge ? changed.blank.edge_finish : changed.trimmed_edge_finish;
    const Finish now = finish;
    const std::vector<findings::PartFindings> steps = findings_of_steps(run);
    for (const material::EdgeFinish better : material::edge_finishes) {
        if (!now || better <= *now) {
            continue; // of an edge that is not stated nothing is known to be better
        }
        finish = better;
        const ShareWord with = word_and_share(findings::judge(changed, steps));
        if (with.is_better_than(word_and_share(run.verdict))) {
            return Remedy{.kind = kind, .finish = better, .share = with.share, .word = with.word};
        }
    }
    return std::nullopt;
}

void rank(std::vector<Remedy>& remedies) {
    std::ranges::stable_sort(remedies, {}, [](const Remedy& remedy) {
        return std::pair(remedy.word != VerdictWord::holds, remedy.share);
    });
}

} // namespace

std::optional<Remedies>
find_remedies(const job::Job& job, const JobResult& run, int n_at_once, const Monitor& monitor) {
    const VerdictWord word = run.verdict.word;
    if (word == VerdictWord::holds || word == VerdictWord::unknown) {
        return std::nullopt;
    }
    Trials trials(job, run, n_at_once, monitor);
    if (!trials.solve_as_is()) {
        return std::nullopt;
    }
    Remedies found{run.verdict.share_used.value_or(0), trials.share_of_slice(), {}};
    found.knows_finish = job.blank.edge_finish.has_value();
    const auto add = [&found](const std::optional<Remedy>& remedy) {
        if (remedy) {
            found.helpful.push_back(*remedy);
        }
    };
    if (found.is_slice_like_part()) {
        trials.try_all();
        for (std::size_t i = 0; i < trials.n_ladders(); ++i) {
            add(trials.choose(i));
        }
    }
    add(better_edge(job, run, RemedyKind::better_edge));
    add(better_edge(job, run, RemedyKind::better_trimmed_edge));
    if (monitor.stop.stop_requested()) {
        return std::nullopt;
    }
    found.n_failed = trials.n_failed();
    found.n_tempers = static_cast<int>(job.sheet.softer_tempers.size());
    rank(found.helpful);
    return found;
}

} // namespace flangewright::process
