#include "io/tables/summary_of_verdict.hpp"

#include "io/tables/edge_words.hpp"
#include "io/tables/remedy_words.hpp"
#include "solver/findings/lip_advice.hpp"

namespace flangewright::tables {

Json remedies_json(const process::JobResult& result) {
    if (!result.remedies) {
        return nullptr;
    }
    Json list = Json::array();
    for (const process::Remedy& remedy : result.remedies->helpful) {
        const bool is_turn = remedy.kind == process::RemedyKind::turned_grain;
        const bool is_length = remedy.from != remedy.to && !is_turn
            && remedy.kind != process::RemedyKind::softer_temper;
        list.push_back(
            {{"what", word_for(remedy.kind)},
             {"from_mm", is_length ? number(remedy.from) : Json(nullptr)},
             {"to_mm", is_length ? number(remedy.to) : Json(nullptr)},
             {"to_deg", is_turn ? number(units::degrees(remedy.to)) : Json(nullptr)},
             {"edge_finish", remedy.finish ? Json(word_for(remedy.finish)) : Json(nullptr)},
             {"material", remedy.sheet.empty() ? Json(nullptr) : Json(remedy.sheet)},
             {"share", number(remedy.share)},
             {"word", findings::word_for(remedy.word)}}
        );
    }
    return list;
}

Json chance_json(const process::JobResult& result) {
    if (!result.chance) {
        return nullptr;
    }
    const findings::Chance& chance = *result.chance;
    if (!chance.first_order) {
        return {{"first_order", nullptr}, {"why_not", chance.why_not}};
    }
    return {
        {"first_order", number(*chance.first_order)},
        {"by_draws", number(chance.by_draws)},
        {"place", chance.place},
        {"share", number(chance.share)},
        {"share_deviation", number(chance.deviation)},
        {"why_not", nullptr}};
}

Json verdict_json(const findings::Verdict& verdict) {
    Json limits = Json::array();
    for (const findings::LimitUse& limit : verdict.limits) {
        limits.push_back(
            {{"place", limit.place},
             {"reached", number(limit.reached)},
             {"allowed", number(limit.allowed)},
             {"share", number(limit.share)},
             {"word", findings::word_for(limit.word)},
             {"is_needed", limit.is_needed},
             {"data_grade", material::word_for(limit.grade)},
             {"source", limit.source}}
        );
    }
    return {
        {"word", findings::word_for(verdict.word)},
        {"share_used", number(verdict.share_used)},
        {"because", verdict.because},
        {"data_grade", material::word_for(verdict.grade)},
        {"limits", limits}};
}

Json lip_advice_json(const job::Job& job, const process::JobResult& result) {
    const std::optional<std::string> advice =
        findings::lip_advice(job, process::findings_of_steps(result), result.verdict);
    return advice ? Json(*advice) : Json(nullptr);
}

} // namespace flangewright::tables
