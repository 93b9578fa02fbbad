#include "io/compare/study.hpp"

#include "io/key_file/excerpt.hpp"
#include "io/key_file/text_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace flangewright::compare {

namespace {

namespace fs = std::filesystem;
using key_file::InputProblem;
using Problems = std::vector<InputProblem>;

constexpr std::size_t most_variants = 1000;
constexpr std::size_t longest_name = 100;
constexpr const char* drawing_key = "bend_line.file";

/// What may stand in a file's name on any disk and in any shell.
std::string file_name_of(const std::string& text) {
    std::string name;
    for (const char letter : text) {
        const bool is_plain = std::isalnum(static_cast<unsigned char>(letter)) != 0
            || std::string_view(".+-_").find(letter) != std::string_view::npos;
        if (letter != ' ') {
            name += is_plain ? letter : '_';
        }
    }
    return name;
}

/// "case.toml" in a folder is known by its folder.
std::string stem_of(const fs::path& case_path) {
    const fs::path whole = fs::absolute(case_path).lexically_normal();
    const std::string stem = whole.stem().string();
    const std::string folder = whole.parent_path().filename().string();
    return stem == "case" && !folder.empty() ? folder : stem;
}

bool is_varied(const std::string& key, const std::vector<Variation>& variations) {
    const auto found = std::ranges::find(variations, key, &Variation::key);
    return found != variations.end() && found->values.size() > 1;
}

/// Names and label; unlike those of the variants before it.
void give_names(
    Variant& variant,
    const StudyRequest& request,
    const fs::path& case_path,
    const std::vector<Setting>& settings
) {
    const bool has_cases = request.cases.size() > 1;
    variant.name = has_cases || settings.empty() ? file_name_of(stem_of(case_path)) : "";
    variant.label = has_cases ? stem_of(case_path) : "";
    for (const Setting& setting : settings) {
        variant.name +=
            (variant.name.empty() ? "" : "_") + file_name_of(setting.key + "-" + setting.value);
        if (is_varied(setting.key, request.variations)) {
            variant.label +=
                (variant.label.empty() ? "" : ", ") + setting.key + " = " + setting.value;
        }
    }
    variant.name.resize(std::min(variant.name.size(), longest_name));
    if (variant.name.starts_with('.') || variant.name.starts_with('-')) {
        variant.name = "_" + variant.name;
    }
}

void make_unlike(std::vector<Variant>& variants, Variant& variant) {
    const std::string wanted = variant.name;
    const auto is_taken = [&] {
        return std::ranges::find(variants, variant.name, &Variant::name) != variants.end();
    };
    for (int number = 2; is_taken(); ++number) {
        variant.name = fmt::format("{}-{}", wanted, number);
    }
}

/// A key that stands elsewhere, or is spelled otherwise, told in the words of the command line.
std::string remedy_in_words(const InputProblem& problem) {
    std::string remedy = problem.remedy;
    constexpr std::string_view deleting = ", or delete it";
    if (remedy.ends_with(deleting)) {
        remedy.resize(remedy.size() - deleting.size());
    }
    constexpr std::string_view moving = "move it to [";
    if (remedy.starts_with(moving) && remedy.ends_with(']')) {
        const std::string key = problem.key.substr(problem.key.rfind('.') + 1);
        return "write --vary " + remedy.substr(moving.size(), remedy.size() - moving.size() - 1)
            + "." + key + "=...";
    }
    return remedy == "delete it" ? "write a key of docs/case-file.md" : remedy;
}

/// Problems of a varied text have no line in a file of the user's.
Problems of_variant(Problems problems, const fs::path& case_path, const Variant& variant) {
    for (InputProblem& problem : problems) {
        problem.file = case_path.string() + " with " + key_file::excerpt(variant.name);
        problem.line = 0;
        problem.column = 0;
        problem.remedy = remedy_in_words(problem);
    }
    return problems;
}

/// The case as it will lie in the study: the drawing beside it.
Result<std::string, InputProblem>
text_in_study(const std::string& text, const fs::path& case_path, Variant& variant) {
    const std::string drawing = text_at(text, drawing_key);
    if (drawing.empty()) {
        return text;
    }
    const fs::path from = fs::absolute(case_path).parent_path() / drawing;
    const std::string name =
        variant.name + "-" + file_name_of(fs::path(drawing).filename().string());
    variant.copies.push_back({from, variant.case_path.parent_path() / name});
    return varied_text(text, {drawing_key, name}, case_path.string());
}

/// Sets one key after the other, checks the whole, fills in the rest of the variant.
Result<Variant, Problems> made(
    const StudyRequest& request,
    const fs::path& case_path,
    const std::string& own_text,
    Variant variant,
    const std::vector<Setting>& settings
) {
    std::string text = own_text;
    for (const Setting& setting : settings) {
        Result<std::string, InputProblem> varied = varied_text(text, setting, case_path.string());
        if (!varied) {
            return tl::unexpected(Problems{varied.error()});
        }
        text = std::move(*varied);
    }
    case_file::CaseFileResult file = case_file::read_case_text(text, case_path.string());
    if (!file) {
        return tl::unexpected(of_variant(file.error(), case_path, variant));
    }
    variant.file = std::move(*file);
    variant.case_path = request.folder / "cases" / (variant.name + ".toml");
    variant.run_folder = request.folder / "runs" / variant.name;
    const Result<std::string, InputProblem> final_text = text_in_study(text, case_path, variant);
    if (!final_text) {
        return tl::unexpected(Problems{final_text.error()});
    }
    variant.case_text = *final_text;
    saved_state::RunMarkParts parts = request.options;
    parts.case_file_text = variant.case_text;
    variant.run_mark = saved_state::run_mark(variant.file.job, parts);
    return variant;
}

InputProblem count_problem(std::string found, std::string allowed, std::string remedy) {
    return {
        "command line", 0, 0, "compare", std::move(found), std::move(allowed), std::move(remedy)};
}

/// Few enough, and enough to compare.
std::optional<InputProblem> count_problem_of(const StudyRequest& request) {
    double n = static_cast<double>(request.cases.size());
    for (const Variation& variation : request.variations) {
        n *= static_cast<double>(variation.values.size());
    }
    if (n < 2) {
        return count_problem(
            "one variant",
            "two variants or more",
            "add --vary KEY=VALUE,VALUE with two values or more, or a second case file"
        );
    }
    if (n > static_cast<double>(most_variants)) {
        return count_problem(
            fmt::format("{:.0f} variants", n),
            fmt::format("at most {}", most_variants),
            "vary fewer keys at once, or give fewer values"
        );
    }
    return std::nullopt;
}

std::optional<InputProblem> same_case(const std::vector<fs::path>& cases) {
    for (std::size_t i = 0; i < cases.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            std::error_code ignored;
            if (cases[i] == cases[j] || fs::equivalent(cases[i], cases[j], ignored)) {
                return count_problem(
                    cases[i].string() + " twice", "each case file once", "leave one out"
                );
            }
        }
    }
    return std::nullopt;
}

} // namespace

Result<std::vector<Variant>, Problems> plan_study(const StudyRequest& request) {
    for (const auto& problem : {count_problem_of(request), same_case(request.cases)}) {
        if (problem) {
            return tl::unexpected(Problems{*problem});
        }
    }
    std::vector<Variant> variants;
    for (const fs::path& case_path : request.cases) {
        const case_file::CaseFileResult own = case_file::read_case_file(case_path);
        const auto own_text = key_file::read_text_file(case_path);
        if (!own || !own_text) {
            return tl::unexpected(own ? Problems{own_text.error()} : own.error());
        }
        for (const std::vector<Setting>& settings : combinations(request.variations)) {
            Variant variant;
            give_names(variant, request, case_path, settings);
            make_unlike(variants, variant);
            Result<Variant, Problems> whole =
                made(request, case_path, *own_text, std::move(variant), settings);
            if (!whole) {
                return tl::unexpected(whole.error());
            }
            variants.push_back(std::move(*whole));
        }
    }
    return variants;
}

std::string common_settings(const std::vector<Variation>& variations) {
    std::string text;
    for (const Variation& variation : variations) {
        if (variation.values.size() == 1) {
            text += (text.empty() ? "" : ", ") + variation.key + " = " + variation.values[0];
        }
    }
    return text;
}

} // namespace flangewright::compare
