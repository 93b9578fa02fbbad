#include "io/saved_state/run_mark.hpp"

#include "io/key_file/text_file.hpp"
#include "io/saved_state/case_text.hpp"

#include <fmt/format.h>

#include <cstdint>

namespace flangewright::saved_state {

namespace {

/// Limits of a user's own sheet stand in no state, but the verdict hangs on them.
std::string own_sheet_text(const material::SheetMaterial& material) {
    if (material.own_file.empty()) {
        return {};
    }
    return key_file::read_text_file(material.own_file).value_or("not readable");
}

} // namespace

std::string run_mark(const job::Job& job, const RunMarkParts& parts) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    const auto take_in = [&sum](std::string_view text) {
        for (const char byte : text) {
            sum = (sum ^ static_cast<unsigned char>(byte)) * 0x100000001b3U;
        }
        sum = (sum ^ 0xFFU) * 0x100000001b3U; // ends a part: no byte of UTF-8
    };
    take_in(parts.case_file_text);
    take_in(case_text(job, parts.program_version));
    take_in(own_sheet_text(job.sheet.material));
    take_in(own_sheet_text(job.annealed));
    take_in(own_sheet_text(job.heat_treated));
    take_in(parts.with_pictures ? "pictures" : "");
    take_in(parts.with_even_drive ? "even drive" : "");
    take_in(parts.with_remedies ? "remedies" : "");
    return fmt::format("{:016x}", sum);
}

} // namespace flangewright::saved_state
