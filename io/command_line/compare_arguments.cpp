#include "io/command_line/command_words.hpp"

namespace flangewright::command_line {

Result<CompareArguments, OnlyText> compare_arguments(const CompareWords& words) {
    if (words.list_jobs && words.collect) {
        return tl::unexpected(wrong(
            "--collect",
            "beside --list-jobs",
            "one of the two",
            "list the jobs first, run them, then collect"
        ));
    }
    CompareArguments compare;
    compare.cases.assign(words.cases.begin(), words.cases.end());
    auto variations = compare::read_variations(words.vary);
    if (!variations) {
        OnlyText text{2, ""};
        for (const key_file::InputProblem& problem : variations.error()) {
            text.text += key_file::line_for(problem) + "\n";
        }
        return tl::unexpected(text);
    }
    compare.variations = std::move(*variations);
    compare.lists_jobs = words.list_jobs;
    compare.collects = words.collect;
    return compare;
}

} // namespace flangewright::command_line
