#include "tests/soak/trial.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <ctime>
#include <fstream>
#include <regex>
#include <sstream>
#include <thread>

namespace flangewright::soak {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

std::string text_of(const fs::path& path) {
    std::ifstream stream(path);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

double seconds_since(Clock::time_point begin) {
    return std::chrono::duration<double>(Clock::now() - begin).count();
}

// The child's whole answer goes into one file.
[[noreturn]] void become(
    const std::string& program,
    const fs::path& case_file,
    const fs::path& folder,
    const fs::path& answer
) {
    const int file = ::open(answer.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
    ::dup2(file, STDOUT_FILENO);
    ::dup2(file, STDERR_FILENO);
    ::execl(
        program.c_str(),
        program.c_str(),
        "run",
        case_file.c_str(),
        "--out",
        folder.c_str(),
        "--threads",
        "1",
        "--no-pictures",
        nullptr
    );
    ::_exit(127);
}

struct Exit {
    int status = 0;
    double seconds = 0; // of a core
    bool was_stopped = false; // asked to, by us
    bool was_killed = false; // by us
};

double core_seconds(pid_t child) {
    clockid_t clock{};
    timespec time{};
    if (::clock_getcpuclockid(child, &clock) != 0 || ::clock_gettime(clock, &time) != 0) {
        return 0;
    }
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

Exit wait_for(pid_t child, const TrialLimits& limits) {
    const Clock::time_point begin = Clock::now();
    Exit exit;
    while (::waitpid(child, &exit.status, WNOHANG) == 0) {
        exit.seconds = std::max(exit.seconds, core_seconds(child));
        if (!exit.was_stopped && exit.seconds > limits.seconds) {
            exit.was_stopped = true;
            ::kill(child, SIGINT);
        }
        if (!exit.was_killed
            && (exit.seconds > limits.seconds + limits.seconds_to_stop
                || seconds_since(begin) > limits.seconds_asleep)) {
            exit.was_killed = true;
            ::kill(child, SIGKILL);
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return exit;
}

// Empty when all of it is there and finite.
std::string fault_in_results(const fs::path& folder) {
    static const std::regex odd("(^|[,:\\[ ])-?(nan|inf)", std::regex::icase);
    for (const char* name : {"summary.json", "stations.csv", "edge.csv", "sheet.html"}) {
        const std::string text = text_of(folder / name);
        if (text.empty()) {
            return fmt::format("missing or empty: {}", name);
        }
        const bool is_table = std::string_view(name) != "sheet.html"; // words may hold the letters
        if (is_table && std::regex_search(text, odd)) {
            return fmt::format("not a number in {}", name);
        }
    }
    return text_of(folder / "summary.json").find("were not numbers") != std::string::npos
        ? "not a number in the field files"
        : "";
}

void read_summary(const fs::path& folder, Trial& trial) {
    const nlohmann::json summary =
        nlohmann::json::parse(text_of(folder / "summary.json"), nullptr, false);
    if (summary.is_discarded() || !summary.contains("steps") || summary["steps"].empty()) {
        return;
    }
    trial.n_iterations = summary["solve"]["iterations"].get<int>();
    const auto number_at = [&summary](const char* pointer) {
        const nlohmann::json::json_pointer place(pointer);
        return summary.contains(place) && summary[place].is_number() ? summary[place].get<double>()
                                                                     : 0;
    };
    trial.angle_held = number_at("/steps/0/flange_angle_deg/mean");
    trial.springback = number_at("/steps/1/springback_deg/mean");
    trial.springback_by_hand = number_at("/hand_calculation/springback_deg");
}

// The line of an answer that says why the run ended early; empty when none does.
std::string explanation_in(const std::string& answer) {
    static const std::array<std::string, 3> beginnings{
        "The run stopped early", "The run ended before", "found "};
    for (const std::string& beginning : beginnings) {
        const std::size_t at = answer.find(beginning);
        if (at != std::string::npos) {
            return answer.substr(at, answer.find('\n', at) - at);
        }
    }
    return "";
}

Trial judged(const Exit& exit, const std::string& answer, const fs::path& folder) {
    Trial trial;
    if (exit.was_killed) {
        return {.ending = Ending::broken, .why = "did not stop when asked"};
    }
    if (!WIFEXITED(exit.status)) {
        return {.ending = Ending::broken, .why = fmt::format("signal {}", WTERMSIG(exit.status))};
    }
    const int code = WEXITSTATUS(exit.status);
    const bool has_results = code == 0 || code == 3 || (code == 130 && exit.was_stopped);
    read_summary(folder, trial);
    const std::string fault = has_results ? fault_in_results(folder) : "";
    if (!fault.empty()) {
        trial.why = fmt::format("exit code {}: {}", code, fault);
    } else if (code == 0) {
        trial.ending = Ending::converged;
    } else if (code == 130 && exit.was_stopped) {
        trial.ending = Ending::unfinished;
        trial.why = "its time was up";
    } else if ((code == 2 || code == 3) && !explanation_in(answer).empty()) {
        trial.ending = Ending::explained;
        trial.why = explanation_in(answer);
    } else {
        trial.why = fmt::format("exit code {}: {}", code, answer.substr(0, 300));
    }
    return trial;
}

} // namespace

Trial run_trial(
    const std::string& program,
    const fs::path& case_file,
    const fs::path& folder,
    const TrialLimits& limits
) {
    const fs::path answer = fs::path(folder).concat(".answer");
    const pid_t child = ::fork();
    if (child < 0) {
        return {.ending = Ending::broken, .why = "no process could be started"};
    }
    if (child == 0) {
        become(program, case_file, folder, answer);
    }
    const Exit exit = wait_for(child, limits);
    Trial trial = judged(exit, text_of(answer), folder);
    trial.seconds = exit.seconds;
    return trial;
}

} // namespace flangewright::soak
