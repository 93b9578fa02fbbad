#include "io/key_file/written_text.hpp"

namespace flangewright::key_file {

std::string quoted(std::string_view text) {
    std::string written = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            written += '\\';
        }
        written += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
    return written + "\"";
}

} // namespace flangewright::key_file
