#include "mesh/base/check.hpp"
#include "solver/findings/findings.hpp"

namespace flangewright::findings {

std::string word_for(VerdictWord word) {
    switch (word) {
    case VerdictWord::holds:
        return "holds";
    case VerdictWord::close:
        return "close";
    case VerdictWord::splits:
        return "splits";
    case VerdictWord::too_thin:
        return "too thin";
    case VerdictWord::unknown:
        return "unknown";
    }
    check(false, "every verdict has a word");
    return {};
}

std::string word_for(OpeningKind kind) {
    switch (kind) {
    case OpeningKind::hole:
        return "hole";
    case OpeningKind::notch:
        return "notch";
    case OpeningKind::tab:
        break;
    }
    return "tab";
}

} // namespace flangewright::findings
