#include "io/command_line/solve_for_key.hpp"

#include "io/key_file/document.hpp"
#include "io/key_file/measure.hpp"

#include <algorithm>

namespace flangewright::command_line {

namespace {

using key_file::Node;
using Problems = std::vector<key_file::InputProblem>;

/// Chooses, and collects what in the case stands in the way.
class Choosing {
public:
    explicit Choosing(Question& question) : question_(question) {}

    Problems problems;

    void choose_key() {
        switch (question_.what) {
        case SolveFor::undercut:
            question_.key = {"block", "wall_angle"};
            ask_for_drive_home();
            break;
        case SolveFor::flange_depth:
            question_.key = {"blank", member("blank.flat_width") ? "flat_width" : "flange_depth"};
            break;
        case SolveFor::plan_radius:
            question_.key = {
                "bend_line", member("bend_line.wall_radius") ? "wall_radius" : "radius"};
            break;
        case SolveFor::nose_radius:
            question_.key = {"block", "nose_radius"};
            break;
        }
        read_own_value();
    }

private:
    void object(
        const std::string& key,
        const std::string& found,
        const std::string& allowed,
        const std::string& remedy
    ) {
        problems.push_back({question_.own.file, line_of(key), 0, key, found, allowed, remedy});
    }

    [[nodiscard]] const Node::Member* member(const std::string& path) const {
        const std::size_t dot = path.find('.');
        const Node::Member* section = document_->root.member(path.substr(0, dot));
        return section == nullptr ? nullptr : section->value.member(path.substr(dot + 1));
    }

    [[nodiscard]] int line_of(const std::string& path) const {
        const Node::Member* found = member(path);
        return found == nullptr ? 0 : found->place.line;
    }

    // Else the wall decides nothing.
    void ask_for_drive_home() {
        const job::Job& job = question_.as_is.job;
        if (job.drive.kind == job::DriveKind::wiper) {
            object(
                "drive.kind",
                "a wiper",
                "a leaf for an undercut",
                "write kind = \"leaf\" if the flange is folded against the wall: a tool that "
                "goes straight down can't fold past square, however far the wall is undercut"
            );
        }
        for (const std::string key : {"angle", "passes"}) {
            const std::string path = "drive." + key;
            if (member(path) != nullptr) {
                object(
                    path,
                    key + " that ends the drive whatever the wall is",
                    "none, so that the flange is driven home to the wall",
                    "delete " + key + " in a copy of the case and ask again"
                );
            }
        }
        const bool is_let_go = std::ranges::any_of(job.steps, [](job::StepKind kind) {
            return !job::ends_on_block(kind);
        });
        if (!is_let_go) {
            object(
                "run.steps",
                "no step that lets the part go",
                "a \"release\" after the bend",
                "write steps = [\"bend-down\", \"release\"]"
            );
        }
    }

    void read_own_value() {
        const std::string path = question_.key_word();
        const Node::Member* found = member(path);
        process::ValueSearch& search = question_.search;
        const job::Job& job = question_.as_is.job;
        if (question_.is_angle()) {
            search.as_case = job.block.wall_angle;
            question_.wanted_along = job.block.wall_angles;
        } else if (found == nullptr) {
            object(
                path,
                "nothing: a line without one radius",
                "curve = \"concave\" or \"convex\"",
                "ask for the flange depth or the nose radius instead"
            );
        } else if (found->value.kind == key_file::Kind::list) {
            take_table();
        } else {
            search.as_case =
                key_file::measured(found->value, key_file::Measure::length, question_.own.unit)
                    .value_or(0);
        }
    }

    // Of depths or flat widths; all of them are then changed by one length.
    void take_table() {
        const case_file::CaseFile& file = question_.as_is;
        const bool is_width = question_.key.key == "flat_width";
        question_.table = is_width ? file.job.blank.flange_widths : file.flange_depths;
        question_.search.as_case = !question_.table.is_empty() ? question_.table.most()
            : is_width                                         ? file.job.blank.flange_width
                                                               : file.job.blank.flange_depth;
    }

    Question& question_;
    Result<key_file::Document, key_file::InputProblem> document_ =
        key_file::document_from(question_.own.text, question_.own.file);
};

} // namespace

Problems choose_key(Question& question) {
    Choosing choosing(question);
    choosing.choose_key();
    return choosing.problems;
}

} // namespace flangewright::command_line
