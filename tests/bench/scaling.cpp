// Time and memory against the number of elements, by hand: scaling [case file]. The case is solved
// with its own mesh and with half as many and twice as many elements in both directions of the
// sheet; the exponent is that of the time over the number of elements. Never a test.
#include "io/case_file/case_file.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <optional>

namespace flangewright {
namespace {

struct Cost {
    int n_elements = 0;
    int n_iterations = 0;
    double seconds = 0;
    double seconds_elements = 0;
    double seconds_factorise = 0;
    double megabytes = 0;
};

// Both steps without fields or findings; nothing when one finds no balance.
std::optional<Cost> solve(const job::Job& job, const process::Fineness& fineness) {
    const auto begin = std::chrono::steady_clock::now();
    auto piece = process::make_workpiece(job, fineness, 2);
    if (!piece) {
        return std::nullopt;
    }
    const process::StepReport bent = process::bend_down(*piece, {}, {}, {});
    const process::StepReport released = process::release(*piece, {}, {});
    if (bent.reason != process::StopReason::done || released.reason != process::StopReason::done) {
        return std::nullopt;
    }
    const auto end = std::chrono::steady_clock::now();
    const auto& clock = piece->system->clock();
    return Cost{
        piece->mesh.n_elements(),
        bent.n_iterations + released.n_iterations,
        std::chrono::duration<double>(end - begin).count(),
        clock.elements,
        clock.factorise,
        0};
}

// In a process of its own, so that each has its own peak of memory.
std::optional<Cost> solve_apart(const job::Job& job, const process::Fineness& fineness) {
    std::array<int, 2> pipe_ends{};
    if (pipe(pipe_ends.data()) != 0) {
        return std::nullopt;
    }
    const pid_t child = fork();
    if (child == 0) {
        const auto cost = solve(job, fineness);
        const bool is_told = cost && write(pipe_ends[1], &*cost, sizeof *cost) == sizeof *cost;
        _exit(is_told ? 0 : 1);
    }
    close(pipe_ends[1]);
    Cost cost;
    const bool is_read = read(pipe_ends[0], &cost, sizeof cost) == sizeof cost;
    close(pipe_ends[0]);
    rusage used{};
    int status = 0;
    wait4(child, &status, 0, &used);
    cost.megabytes = static_cast<double>(used.ru_maxrss) / 1024;
    return is_read ? std::optional(cost) : std::nullopt;
}

// The mesh the case gets, `factor` times as fine along and across; layers stay.
process::Fineness refined(const job::Job& job, double factor) {
    process::Fineness fineness = process::fineness_for(job.accuracy);
    fineness.n_round_nose = static_cast<int>(std::lround(factor * fineness.n_round_nose));
    fineness.n_along_most = static_cast<int>(std::lround(factor * fineness.n_along_most));
    fineness.largest_turn /= factor;
    fineness.growth = std::pow(fineness.growth, 1 / factor);
    return fineness;
}

void print_table(const job::Job& job) {
    fmt::print("| elements | iterations | wall s | elements s | factor s | peak MB | exponent |\n");
    fmt::print("|---|---|---|---|---|---|---|\n");
    std::optional<Cost> before;
    for (const double factor : {0.5, 1.0, 2.0}) {
        const std::optional<Cost> cost = solve_apart(job, refined(job, factor));
        if (!cost) {
            fmt::print("| no equilibrium |\n");
            continue;
        }
        const double exponent = before ? std::log(cost->seconds / before->seconds)
                / std::log(static_cast<double>(cost->n_elements) / before->n_elements)
                                       : 0;
        fmt::print(
            "| {} | {} | {:.1f} | {:.1f} | {:.1f} | {:.0f} | {} |\n",
            cost->n_elements,
            cost->n_iterations,
            cost->seconds,
            cost->seconds_elements,
            cost->seconds_factorise,
            cost->megabytes,
            before ? fmt::format("{:.2f}", exponent) : "-"
        );
        std::fflush(stdout);
        before = cost;
    }
}

} // namespace
} // namespace flangewright

int main(int n_words, char** words) {
    const auto file = flangewright::case_file::read_case_file(
        n_words > 1 ? words[1] : "cases/stretch_flange/case.toml"
    );
    if (!file) {
        fmt::print(stderr, "the case file can't be read; flangewright check says why\n");
        return 1;
    }
    flangewright::print_table(file->job);
}
