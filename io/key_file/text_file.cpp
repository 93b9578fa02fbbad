#include "io/key_file/text_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

namespace flangewright::key_file {

namespace {

namespace fs = std::filesystem;

InputProblem
file_problem(const fs::path& path, std::string found, std::string allowed, std::string remedy) {
    return {path.string(), 0, 0, "file", std::move(found), std::move(allowed), std::move(remedy)};
}

std::optional<InputProblem> objection_to(const fs::path& path, const TextKind& kind) {
    std::error_code trouble;
    const fs::file_status status = fs::status(path, trouble);
    if (status.type() == fs::file_type::not_found) {
        return file_problem(
            path, "nothing there", "a " + kind.what, "check the path and the spelling"
        );
    }
    if (fs::is_directory(status)) {
        return file_problem(path, "a folder", "a " + kind.what, "name the file inside the folder");
    }
    if (!fs::is_regular_file(status)) {
        return file_problem(
            path,
            "something that can't be read",
            "a text file",
            "check the path and who may read it"
        );
    }
    const std::uintmax_t size = fs::file_size(path, trouble);
    if (!trouble && size > kind.largest) {
        return file_problem(
            path,
            fmt::format("{:.1f} MB", static_cast<double>(size) / 1e6),
            fmt::format("at most {} MB", kind.largest / 1'000'000),
            "check that this is the " + kind.what + " and not a drawing or a result"
        );
    }
    return std::nullopt;
}

// Length of the UTF-8 sequence at the front, 0 when it is none (also for overlong forms,
// surrogates and beyond the last code point).
std::size_t sequence_length(std::string_view text) {
    const auto byte = [text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (byte(0) < 0x80) {
        return 1;
    }
    const std::size_t length = byte(0) >= 0xF0 ? 4 : byte(0) >= 0xE0 ? 3 : 2;
    if (byte(0) < 0xC2 || byte(0) > 0xF4 || text.size() < length) {
        return 0;
    }
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0) != 0x80) {
            return 0;
        }
    }
    const bool is_overlong =
        (byte(0) == 0xE0 && byte(1) < 0xA0) || (byte(0) == 0xF0 && byte(1) < 0x90);
    const bool is_out = (byte(0) == 0xED && byte(1) > 0x9F) || (byte(0) == 0xF4 && byte(1) > 0x8F);
    return is_overlong || is_out ? 0 : length;
}

} // namespace

Result<std::string, InputProblem> read_text_file(const fs::path& path, const TextKind& kind) {
    if (const std::optional<InputProblem> problem = objection_to(path, kind)) {
        return tl::unexpected(*problem);
    }
    std::ifstream stream(path, std::ios::binary);
    std::string text(std::istreambuf_iterator<char>(stream), {});
    if (!stream.is_open() || stream.bad()) {
        return tl::unexpected(file_problem(
            path,
            "a file that may not be read",
            "a readable file",
            "give yourself the right to read it"
        ));
    }
    return text;
}

std::optional<InputProblem> encoding_problem(std::string_view text, const std::string& file) {
    int line = 1;
    std::size_t line_begin = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = sequence_length(text.substr(at));
        if (length == 0 || text[at] == '\0') {
            const int column = static_cast<int>(at - line_begin) + 1;
            return InputProblem{
                file,
                line,
                column,
                "text",
                fmt::format(
                    "a byte that is no text (0x{:02X})", static_cast<unsigned char>(text[at])
                ),
                "plain text in UTF-8",
                "save the file as UTF-8 in your editor"};
        }
        if (text[at] == '\n') {
            ++line;
            line_begin = at + 1;
        }
        at += length;
    }
    return std::nullopt;
}

} // namespace flangewright::key_file
