#include "io/saved_state/state_file.hpp"

#include "io/run_folder/whole_file.hpp"
#include "io/saved_state/case_text.hpp"
#include "io/saved_state/state_bytes.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <cstring>
#include <fstream>
#include <iterator>

namespace flangewright::saved_state {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;

constexpr std::string_view family = "flangewright saved state, form ";
constexpr std::string_view form = "5\n"; // raised with every change of what the body holds
constexpr std::size_t word = 8;
constexpr std::uintmax_t largest_file = 4'000'000'000; // bytes

InputProblem problem(const std::string& file, std::string found, std::string remedy) {
    return {
        file,
        0,
        0,
        "saved state",
        std::move(found),
        "a state this program saved for this case",
        std::move(remedy)};
}

InputProblem damaged(const std::string& file, const std::string& what) {
    return problem(file, "a damaged file (" + what + ")", "run again without --resume");
}

// FNV-1a, 64 bits: finds damage, keeps nobody out. Source: Fowler, Noll and Vo (from memory).
std::uint64_t checksum(std::string_view bytes) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    for (const char byte : bytes) {
        sum = (sum ^ static_cast<unsigned char>(byte)) * 0x100000001b3U;
    }
    return sum;
}

void append(std::string& bytes, std::uint64_t value) {
    char raw[word];
    std::memcpy(raw, &value, word);
    bytes.append(raw, word);
}

std::uint64_t number_at(std::string_view bytes, std::size_t place) {
    std::uint64_t value = 0;
    std::memcpy(&value, bytes.data() + place, word);
    return value;
}

// The body behind a sound head.
Result<std::string_view, InputProblem> body_of(std::string_view bytes, const std::string& file) {
    if (!bytes.starts_with(family)) {
        return tl::unexpected(problem(
            file, "something else than a saved state", "remove the file, or run without --resume"
        ));
    }
    bytes.remove_prefix(family.size());
    if (!bytes.starts_with(form)) {
        const std::size_t end = std::min<std::size_t>(bytes.find('\n'), 10);
        return tl::unexpected(problem(
            file,
            fmt::format("a state of another version (form {})", bytes.substr(0, end)),
            "run again without --resume"
        ));
    }
    bytes.remove_prefix(form.size());
    if (bytes.size() < 2 * word || number_at(bytes, 0) != bytes.size() - 2 * word) {
        return tl::unexpected(damaged(file, "its length is not the one it names"));
    }
    const std::string_view body = bytes.substr(2 * word);
    if (number_at(bytes, word) != checksum(body)) {
        return tl::unexpected(damaged(file, "its checksum is wrong"));
    }
    return body;
}

// How many of the finished steps hang on nothing that has changed.
std::size_t
n_unchanged(const process::RunState& run, const std::string& then, const std::string& now) {
    for (std::size_t n = run.finished.size(); n > 0; --n) {
        if (text_of_first_steps(then, n) == text_of_first_steps(now, n)) {
            return n;
        }
    }
    return 0;
}

} // namespace

std::string file_bytes(const std::string& case_text, const process::RunState& run) {
    const std::string body = body_from({case_text, run});
    std::string bytes;
    bytes.reserve(body.size() + 64);
    bytes += family;
    bytes += form;
    append(bytes, body.size());
    append(bytes, checksum(body));
    return bytes + body;
}

Result<TakenUp, InputProblem>
state_from(std::string_view bytes, const std::string& file, const std::string& case_text) {
    const Result<std::string_view, InputProblem> body = body_of(bytes, file);
    if (!body) {
        return tl::unexpected(body.error());
    }
    Result<CaseState, std::string> state = state_from_body(*body);
    if (!state) {
        return tl::unexpected(damaged(file, state.error()));
    }
    const std::string difference = first_difference(state->case_text, case_text);
    if (difference.empty()) {
        return TakenUp{std::move(state->run), ""};
    }
    const std::size_t n_kept = n_unchanged(state->run, state->case_text, case_text);
    if (n_kept == 0) {
        return tl::unexpected(problem(
            file,
            "the state of another case: " + difference,
            "run without --resume, or name the other folder with --out FOLDER"
        ));
    }
    return TakenUp{process::cut_back(std::move(state->run), n_kept), difference};
}

Result<fs::path>
write_state(const fs::path& folder, const std::string& case_text, const process::RunState& run) {
    return run_folder::write_whole(folder / file_name, file_bytes(case_text, run));
}

Result<std::optional<TakenUp>, InputProblem>
read_state(const fs::path& folder, const std::string& case_text) {
    const fs::path path = folder / file_name;
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (status.type() == fs::file_type::not_found) {
        return std::optional<TakenUp>();
    }
    std::ifstream stream(path, std::ios::binary);
    const bool is_file = fs::is_regular_file(status) && stream.good();
    if (!is_file || fs::file_size(path, error) > largest_file || error) {
        return tl::unexpected(problem(
            path.string(),
            "something that can't be read",
            "check who may read it, or run without --resume"
        ));
    }
    const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
    Result<TakenUp, InputProblem> state = state_from(bytes, path.string(), case_text);
    if (!state) {
        return tl::unexpected(state.error());
    }
    return std::optional<TakenUp>(std::move(*state));
}

} // namespace flangewright::saved_state
