#include "io/sheet_page/remedies_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/remedy_words.hpp"

namespace flangewright::sheet_page {

std::string remedies_part(const tables::RunFacts& facts, const process::JobResult& result) {
    if (!result.remedies) {
        return {};
    }
    std::string list;
    for (const std::string& line : tables::remedy_lines(*result.remedies, facts.unit)) {
        list += "<li>" + safe(line) + "</li>\n";
    }
    std::string content = list.empty() ? list : "<ol>\n" + list + "</ol>\n";
    content += "<p class=\"note\">" + safe(tables::remedies_note(*result.remedies)) + "</p>\n";
    return section("remedies", tables::remedies_heading, content);
}

} // namespace flangewright::sheet_page
