#include "io/tensile/material_text.hpp"

#include "io/key_file/written_text.hpp"
#include "mesh/base/check.hpp"

#include <fmt/format.h>

namespace flangewright::tensile {

namespace {

using key_file::quoted;
using material::CurveFit;
using material::ModulusOrigin;
using material::TensileFit;

std::string section(
    const std::string& key, const std::string& value, const char* grade, const std::string& source
) {
    return fmt::format(
        "\n[{}]\nvalue = {}\ngrade = \"{}\"\nsource = {}\n", key, value, grade, quoted(source)
    );
}

std::string stress(double value) {
    return fmt::format("\"{:.1f} MPa\"", value);
}

std::string percent(double share) {
    return fmt::format("\"{:.4g} %\"", 100 * share);
}

std::string modulus_section(const TensileFit& fit, const MaterialFacts& facts) {
    const std::string value = fmt::format("\"{:.4g} GPa\"", fit.elastic.modulus / 1000);
    switch (fit.elastic.origin) {
    case ModulusOrigin::fitted:
        return section("youngs_modulus", value, "coupon", facts.source + ", straight part");
    case ModulusOrigin::given:
        return section("youngs_modulus", value, "assumed", "given with --modulus");
    case ModulusOrigin::assumed:
        break;
    }
    return section(
        "youngs_modulus",
        value,
        "assumed",
        "taken for aluminium; the test does not resolve its straight part"
    );
}

std::string poisson_section(const MaterialFacts& facts) {
    return section(
        "poisson_ratio",
        fmt::format("{:g}", facts.poisson_ratio),
        "assumed",
        facts.is_poisson_given ? "given with --poisson" : "taken for aluminium"
    );
}

std::string curve_section(const CurveFit& fit, const std::string& head, const std::string& source) {
    std::string text = "\n[" + head + "]\n";
    if (head == "hardening") {
        text += "law = " + quoted(fit.curve.law_name) + "\n";
    }
    for (const material::HardeningEntry& entry : material::hardening_laws()) {
        if (entry.name != fit.curve.law_name) {
            continue;
        }
        for (const material::LawParameter& parameter : entry.parameters) {
            const double value = fit.curve.law_values.at(parameter.name).front();
            const bool is_stress = parameter.quantity == material::Quantity::stress;
            text += is_stress ? fmt::format("{} = \"{:.5g} MPa\"\n", parameter.name, value)
                              : fmt::format("{} = {:.5g}\n", parameter.name, value);
        }
    }
    return text
        + fmt::format(
               "fitted_to = [{:.4g}, {:.4g}]\ngrade = \"coupon\"\nsource = {}\n",
               fit.curve.fitted_to->least,
               fit.curve.fitted_to->most,
               quoted(fmt::format(
                   "{}; least squares, misses {:.2g} MPa rms, {:.2g} MPa at most",
                   source,
                   fit.rms,
                   fit.largest
               ))
        );
}

std::string r_section(const TensileFit& fit, const MaterialFacts& facts) {
    if (!fit.r) {
        return "";
    }
    return fmt::format(
        "\n[r_values]\nr{} = {:.3g}\ngrade = \"coupon\"\nsource = {}\n",
        facts.direction,
        fit.r->value,
        quoted(fmt::format(
            "{}, {:.3g} to {:.3g} % strain",
            facts.source,
            100 * fit.r->range.least,
            100 * fit.r->range.most
        ))
    );
}

/// By the screening rule for an edge without data, from the measured elongation.
std::string edge_section(double elongation) {
    std::string text = "\n[edge_limit]\n";
    for (const material::EdgeFinish finish : material::edge_finishes) {
        const bool is_dressed =
            finish == material::EdgeFinish::filed || finish == material::EdgeFinish::polished;
        const double share = is_dressed ? 0.8 : 0.5;
        text += fmt::format(
            "{} = {{ value = {}, grade = \"assumed\", source = \"screening rule {:g} x elongation "
            "(common practice, unverified); replace by a test of the edge\" }}\n",
            material::word_for(finish),
            percent(share * elongation),
            share
        );
    }
    return text;
}

} // namespace

std::string material_text(const TensileFit& fit, const MaterialFacts& facts) {
    check(!fit.curves.empty(), "a material file has a hardening curve");
    const std::string turned = fmt::format("{} deg to the rolling direction", facts.direction);
    std::string text = "# Written by flangewright fit from one strip, " + turned
        + ".\nname = " + quoted(facts.name) + "\nnote = "
        + quoted("From one strip, " + turned + ": another lot differs. Pull three or more.") + "\n"
        + modulus_section(fit, facts) + poisson_section(facts)
        + section("proof_stress", stress(fit.elastic.proof_stress), "coupon", facts.source)
        + section("tensile_strength", stress(fit.tensile_strength), "coupon", facts.source);
    if (fit.uniform_elongation) { // else the test ended before the strip could break
        text +=
            section("uniform_elongation", percent(*fit.uniform_elongation), "coupon", facts.source)
            + section(
                "total_elongation",
                percent(fit.total_elongation),
                "coupon",
                facts.source + ", to the end of the record, elastic part taken off; " + facts.gauge
            );
    }
    text += curve_section(fit.curves.front(), "hardening", facts.source);
    for (std::size_t i = 1; i < fit.curves.size(); ++i) {
        text += curve_section(fit.curves[i], fit.curves[i].curve.law_name, facts.source);
    }
    text += r_section(fit, facts);
    return fit.uniform_elongation ? text + edge_section(fit.total_elongation) : text;
}

} // namespace flangewright::tensile
