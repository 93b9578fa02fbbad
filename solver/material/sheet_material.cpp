#include "solver/material/sheet_material.hpp"

#include "mesh/base/check.hpp"

namespace flangewright::material {

std::string word_for(DataGrade grade) {
    switch (grade) {
    case DataGrade::coupon:
        return "coupon";
    case DataGrade::published:
        return "published";
    case DataGrade::typical:
        return "typical";
    case DataGrade::assumed:
        return "assumed";
    case DataGrade::unknown:
        return "unknown";
    }
    check(false, "every data grade has a word");
    return {};
}

std::string word_for(EdgeFinish finish) {
    switch (finish) {
    case EdgeFinish::snipped:
        return "snipped";
    case EdgeFinish::sawn:
        return "sawn";
    case EdgeFinish::filed:
        return "filed";
    case EdgeFinish::polished:
        return "polished";
    }
    check(false, "every edge finish has a word");
    return {};
}

} // namespace flangewright::material
