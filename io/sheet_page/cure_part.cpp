#include "io/sheet_page/cure_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/cure_words.hpp"
#include "io/tables/web_words.hpp"

namespace flangewright::sheet_page {

std::string cure_part(const tables::RunFacts& facts, const process::JobResult& result) {
    if (!result.web_cure) {
        return {};
    }
    std::string list;
    for (const std::string& step : tables::cure_steps(*result.web_cure, facts.unit)) {
        list += "<li>" + safe(step) + "</li>\n";
    }
    const std::string occasion = tables::cure_occasion(*result.web_cure, result);
    std::string content = occasion.empty() ? occasion : "<p>" + safe(occasion) + "</p>\n";
    content += list.empty() ? list : "<ul>\n" + list + "</ul>\n";
    content += "<p>" + safe(tables::cure_outcome(*result.web_cure, facts.unit)) + "</p>\n";
    if (!list.empty()) {
        if (const std::string doubt = tables::cure_doubt(result); !doubt.empty()) {
            content += "<p>" + safe(doubt) + "</p>\n";
        }
        content += "<p class=\"note\">" + safe(tables::cure_caution()) + "</p>\n";
    }
    return section("cure", tables::cure_heading, content);
}

} // namespace flangewright::sheet_page
