#include "io/tables/step_words.hpp"

namespace flangewright::tables {

std::string words_after(job::StepKind kind) {
    switch (kind) {
    case job::StepKind::bend_down:
        return "on the block";
    case job::StepKind::release:
        return "released";
    case job::StepKind::trim:
        return "trimmed to the net edge";
    case job::StepKind::anneal:
        return "annealed";
    case job::StepKind::heat_treat:
        return "heat treated";
    case job::StepKind::set_on_block:
        return "held flat on the block";
    case job::StepKind::return_bend:
        break;
    }
    return "lip bent, on the block";
}

std::string with_capital(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

} // namespace flangewright::tables
