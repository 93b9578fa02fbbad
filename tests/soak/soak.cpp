// Runs random jobs and tells how they ended: soak PROGRAM N [FIRST SEED] [FOLDER FOR FAILURES]
// Answers 1 when a run broke, or too few of the straight and concave ones converged.
#include "io/units/angle.hpp"
#include "tests/soak/random_job.hpp"
#include "tests/soak/trial.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <string_view>
#include <vector>

namespace {

namespace fs = std::filesystem;
using flangewright::job::DriveKind;
using flangewright::job::EndKind;
using flangewright::outline::Curve;
using namespace flangewright::soak; // NOLINT(google-build-using-namespace): the program's own

constexpr std::array kind_words{"straight", "concave", "convex"};

struct Outcome {
    RandomJob random;
    Trial trial;
};

std::size_t kind_of(const RandomJob& random) {
    return static_cast<std::size_t>(random.job.blank.line.curve());
}

const char* word_for(Ending ending) {
    constexpr std::array words{"converged", "explained", "unfinished", "broken"};
    return words.at(static_cast<std::size_t>(ending));
}

std::string ends_of(const RandomJob& random) {
    const auto letter = [](EndKind end) { return end == EndKind::free ? 'f' : 'c'; };
    return {letter(random.job.blank.start), letter(random.job.blank.end)};
}

std::string row_of(const Outcome& outcome) {
    const flangewright::job::Job& job = outcome.random.job;
    const double t = job.sheet.thickness;
    return fmt::format(
        "{:6} {:<10} {:<8} {:<15} t {:.2f} R/t {:4.1f} wall {:3.0f} to {:3.0f} {:5} gap {:.2f} mu "
        "{:.2f} "
        "plan {:6.0f} width/t {:4.1f} ends {}  {:5.1f} s {:4} it  held {:5.1f}  back {:5.1f}  {}",
        outcome.random.seed,
        word_for(outcome.trial.ending),
        kind_words.at(kind_of(outcome.random)),
        outcome.random.sheet,
        t,
        job.block.nose_radius / t,
        flangewright::units::degrees(job.block.wall_angle),
        flangewright::units::degrees(job.drive.angle),
        job.drive.kind == DriveKind::wiper ? "wiper" : "leaf",
        job.drive.clearance,
        job.block.friction,
        job.blank.line.radius(),
        job.blank.flange_width / t,
        ends_of(outcome.random),
        outcome.trial.seconds,
        outcome.trial.n_iterations,
        outcome.trial.angle_held,
        outcome.trial.springback,
        outcome.trial.why
    );
}

// A run that ends well but with figures far from what anyone expects deserves a look. The gap
// explains a few degrees of the angle, a bowed flange some springback.
void remark_on_figures(Outcome& outcome) {
    constexpr double explained_by_gap = 10; // deg
    constexpr double explained_by_bow = 8; // deg
    const double wanted = flangewright::units::degrees(outcome.random.job.drive.angle);
    Trial& trial = outcome.trial;
    if (trial.ending != Ending::converged) {
        return;
    }
    if (std::abs(trial.angle_held - wanted) > explained_by_gap) {
        trial.why += "look: held far from the drive's angle; ";
    }
    if (trial.springback < -explained_by_bow
        || trial.springback > 3 * trial.springback_by_hand + explained_by_bow) {
        trial.why += fmt::format("look: springback by hand is {:.1f}", trial.springback_by_hand);
    }
}

Outcome soaked(const std::string& program, std::uint64_t seed, const fs::path& place) {
    Outcome outcome{random_job(seed), {}};
    const fs::path case_file = place / fmt::format("{}.toml", seed);
    const fs::path folder = place / fmt::format("{}-result", seed);
    fs::remove_all(folder);
    std::ofstream(case_file) << outcome.random.text;
    outcome.trial = run_trial(program, case_file, folder, {});
    remark_on_figures(outcome);
    return outcome;
}

// Keeps what a developer needs of a run that did not converge, and drops the rest.
void tidy(const Outcome& outcome, const fs::path& place, bool keeps_failures) {
    const std::string stem = fmt::format("{}", outcome.random.seed);
    fs::remove_all(place / (stem + "-result"));
    if (outcome.trial.ending == Ending::converged || !keeps_failures) {
        fs::remove(place / (stem + ".toml"));
        fs::remove(place / (stem + "-result.answer"));
    }
}

// Numbers by kind and ending; true when the targets are met.
bool report(const std::vector<Outcome>& outcomes) {
    constexpr double wanted_share = 0.98;
    std::array<std::array<int, 4>, 3> counts{};
    for (const Outcome& outcome : outcomes) {
        ++counts.at(kind_of(outcome.random)).at(static_cast<std::size_t>(outcome.trial.ending));
    }
    std::printf(
        "\n%-9s %6s %10s %10s %11s %7s\n",
        "kind",
        "jobs",
        "converged",
        "explained",
        "unfinished",
        "broken"
    );
    bool is_met = true;
    for (std::size_t kind = 0; kind < counts.size(); ++kind) {
        const auto& count = counts.at(kind);
        const int n_jobs = count[0] + count[1] + count[2] + count[3];
        std::printf(
            "%-9s %6d %10d %10d %11d %7d\n",
            kind_words.at(kind),
            n_jobs,
            count[0],
            count[1],
            count[2],
            count[3]
        );
        const bool is_promised = static_cast<Curve>(kind) != Curve::convex;
        // One failure is allowed where the jobs are too few for a share to mean anything.
        const int n_failed = n_jobs - count[0];
        const bool is_short = n_failed > 1 && count[0] < wanted_share * n_jobs;
        is_met = is_met && count[3] == 0 && !(is_promised && is_short);
    }
    return is_met;
}

std::optional<std::uint64_t> number_in(std::string_view word) {
    std::uint64_t value = 0;
    const auto outcome = std::from_chars(word.data(), word.data() + word.size(), value);
    return outcome.ec == std::errc() && outcome.ptr == word.data() + word.size()
        ? std::optional(value)
        : std::nullopt;
}

} // namespace

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    const std::optional<std::uint64_t> n = words.size() > 1 ? number_in(words[1]) : std::nullopt;
    const std::optional<std::uint64_t> first = words.size() > 2 ? number_in(words[2]) : 1;
    if (!n || !first) {
        std::fputs("usage: soak PROGRAM N [FIRST SEED] [FOLDER FOR FAILURES]\n", stderr);
        return 2;
    }
    const bool keeps_failures = words.size() > 3;
    const fs::path place = keeps_failures
        ? fs::path(words[3])
        : fs::temp_directory_path() / fmt::format("flangewright-soak-{}", *first);
    fs::create_directories(place);
    std::vector<Outcome> outcomes;
    for (std::uint64_t seed = *first; seed < *first + *n; ++seed) {
        outcomes.push_back(soaked(words[0], seed, place));
        std::puts(row_of(outcomes.back()).c_str());
        std::fflush(stdout);
        tidy(outcomes.back(), place, keeps_failures);
    }
    return report(outcomes) ? EXIT_SUCCESS : EXIT_FAILURE;
}
