#include "io/case_file/openings_check.hpp"

#include "mesh/outline/polygons.hpp"
#include "solver/findings/flange_development.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::case_file {

namespace {

constexpr double slack = 1e-9;
constexpr const char* why = " (two thicknesses of metal stay round every opening)";

/// A slot as the straight line its round end's centre is moved along, and half its width.
struct Capsule {
    Eigen::Vector3d from;
    Eigen::Vector3d to;
    double half = 0;
};

Capsule capsule_of(const job::Job& job, const outline::Hole& hole) {
    const Eigen::Vector3d centre = job.blank.line.point({hole.station, hole.distance});
    return {centre, centre, 0.5 * hole.diameter};
}

Capsule capsule_of(const job::Job& job, const outline::Notch& notch) {
    const double edge = job.blank.flange_width_at(notch.station);
    const double half = 0.5 * notch.width;
    return {
        job.blank.line.point({notch.station, edge - notch.depth + half}),
        job.blank.line.point({notch.station, edge}),
        half};
}

double off_segment(const Eigen::Vector3d& point, const Capsule& capsule) {
    return outline::off_side(point, capsule.from, capsule.to);
}

/// Metal between two; slots of a flange hardly turn to each other, so their ends tell.
double metal_between(const Capsule& one, const Capsule& other) {
    const double apart = std::min(
        {off_segment(one.from, other),
         off_segment(one.to, other),
         off_segment(other.from, one),
         off_segment(other.to, one)}
    );
    return apart - one.half - other.half;
}

/// Checks one case's openings.
class Check {
public:
    Check(ReadCase& parts, const job::Job& job)
        : parts_(parts), job_(job), least_(2 * job.sheet.thickness),
          bend_end_(findings::bend_allowance(job)) {}

    void run() {
        if (!fits_the_rest()) {
            return;
        }
        for (auto& hole : parts_.blank.openings.holes) {
            check_hole(hole.opening, hole.place);
        }
        for (auto& notch : parts_.blank.openings.notches) {
            check_notch(notch.opening, notch.place);
        }
        for (auto& tab : parts_.blank.openings.tabs) {
            check_tab(tab.opening, tab.place);
        }
        check_neighbours();
    }

private:
    [[nodiscard]] std::string shown(double length) const {
        return shown_length(length, *parts_.blank_table);
    }

    /// An edge with notches or tabs, and a flange with holes, can't do everything yet.
    [[nodiscard]] bool fits_the_rest() const {
        const OpeningsSection& openings = parts_.blank.openings;
        const bool in_flange = std::ranges::any_of(openings.holes, [](const auto& hole) {
            return hole.opening.distance > 0;
        });
        const bool at_edge = !openings.notches.empty() || !openings.tabs.empty();
        const char* key = in_flange ? "holes" : (openings.notches.empty() ? "tabs" : "notches");
        const std::string what = in_flange ? "holes in the flange" : key;
        const auto object = [&](const std::string& beside) {
            parts_.blank_table->object_found(
                key,
                what + " beside " + beside,
                what + " of a flange that is bent once",
                "take the one or the other out; holes in the web go with everything"
            );
            return false;
        };
        if ((in_flange || at_edge) && parts_.return_bend_table != nullptr) {
            return object("a return bend");
        }
        if (at_edge && job_.blank.trim_allowance > 0) {
            parts_.blank_table->object_found(
                openings.notches.empty() ? "tabs" : "notches",
                "a trim allowance beside notches or tabs",
                "notches and tabs of an edge that stays as it is cut",
                "leave trim_allowance out, or cut them after the trim"
            );
            return false;
        }
        return true;
    }

    /// Of an edge that slopes, beside an opening so wide to either side.
    [[nodiscard]] double narrowest_at(double station, double half) const {
        const job::Blank& blank = job_.blank;
        return std::min(
            {blank.flange_width_at(station - half),
             blank.flange_width_at(station),
             blank.flange_width_at(station + half)}
        );
    }

    void check_hole(const outline::Hole& hole, OpeningPlace& place) {
        const double radius = 0.5 * hole.diameter;
        check_ends(hole.station, radius, hole.distance + (hole.distance > 0 ? radius : 0), place);
        if (hole.distance < 0) {
            check_web_hole(hole, place);
        } else {
            check_flange_hole(hole, place);
        }
    }

    void check_web_hole(const outline::Hole& hole, OpeningPlace& place) {
        const double radius = 0.5 * hole.diameter;
        const double setback = hole.is_pin ? job_.block.backing_setback : 0;
        const double nearest = radius + std::max(least_, setback);
        const double furthest = job_.blank.web_width - radius - least_;
        object_outside(
            place, "web", -hole.distance, nearest, furthest, "between the bend and the web's edge"
        );
    }

    void check_flange_hole(const outline::Hole& hole, OpeningPlace& place) {
        const double radius = 0.5 * hole.diameter;
        if (hole.is_pin) {
            place.object(
                "pin",
                "a pin in the flange",
                "pins in the web, which the backing clamps",
                place.is_drawn() ? "put the hole on hole_layer" : "write pin = false"
            );
        }
        const double edge = narrowest_at(hole.station, radius);
        const double net = edge - job_.blank.trim_allowance;
        if (hole.distance > net) {
            object_outside(
                place,
                "flange",
                hole.distance,
                net + radius + least_,
                edge - radius - least_,
                "between the net line and the cut edge"
            );
            return;
        }
        object_outside(
            place,
            "flange",
            hole.distance,
            bend_end_ + radius + least_,
            net - radius - least_,
            "between the bend's end and the net edge"
        );
    }

    void object_outside(
        OpeningPlace& place,
        const std::string& key,
        double value,
        double lowest,
        double highest,
        const std::string& where
    ) {
        if (value >= lowest - slack && value <= highest + slack) {
            return;
        }
        const std::string allowed = lowest > highest
            ? "a smaller opening: there is no room for this one " + where + why
            : shown(lowest) + " to " + shown(highest) + ", " + where + why;
        place.object(key, shown(value), allowed, "move the opening, or make it smaller");
    }

    void check_ends(double station, double half, double distance, OpeningPlace& place) {
        const double scale = 1 - job_.blank.line.curvature(station) * distance;
        const double off = (half + least_) / std::max(scale, 0.1);
        object_outside(
            place,
            "station",
            station,
            off,
            job_.blank.line.length() - off,
            "between the line's ends"
        );
    }

    void check_notch(const outline::Notch& notch, OpeningPlace& place) {
        const double edge = narrowest_at(notch.station, 0.5 * notch.width);
        check_ends(notch.station, 0.5 * notch.width, edge, place);
        object_outside(
            place,
            "depth",
            notch.depth,
            0.5 * notch.width,
            edge - bend_end_ - least_,
            "from a half round to two thicknesses short of the bend"
        );
        for (const auto& tab : parts_.blank.openings.tabs) {
            const double half = 0.5 * notch.width + least_;
            if (notch.station + half > tab.opening.begin
                && notch.station - half < tab.opening.end) {
                place.object(
                    "station",
                    "a notch on or close to a tab",
                    "notches beside the tabs" + std::string(why),
                    "move the notch, or the tab's end"
                );
            }
        }
    }

    void check_tab(const outline::Tab& tab, OpeningPlace& place) {
        const double length = job_.blank.line.length();
        if (tab.end - tab.begin < least_) {
            place.object(
                "to",
                shown(tab.end),
                "at least two thicknesses past from",
                "write from and to, in this order"
            );
            return;
        }
        const auto is_near_end = [&](double at) {
            const double off = std::min(at, length - at);
            return off < -slack || (off > slack && off < least_);
        };
        for (const auto& [key, at] : {std::pair("from", tab.begin), std::pair("to", tab.end)}) {
            if (is_near_end(at)) {
                place.object(
                    key,
                    shown(at),
                    "0, " + shown(length)
                        + ", or two thicknesses inside them (the bend line's ends)",
                    "let the tab end at the line's end or clear of it"
                );
            }
        }
    }

    void check_neighbours() {
        std::vector<std::pair<Capsule, OpeningPlace*>> placed;
        for (auto& hole : parts_.blank.openings.holes) {
            placed.emplace_back(capsule_of(job_, hole.opening), &hole.place);
        }
        for (auto& notch : parts_.blank.openings.notches) {
            placed.emplace_back(capsule_of(job_, notch.opening), &notch.place);
        }
        for (std::size_t i = 0; i < placed.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                const double metal = metal_between(placed[i].first, placed[k].first);
                if (metal < least_ - slack) {
                    placed[i].second->object(
                        "station",
                        metal < 0
                            ? "an opening that runs into " + placed[k].second->path_to("station")
                            : "only " + shown(metal) + " of metal to "
                                + placed[k].second->path_to("station"),
                        "at least " + shown(least_) + why,
                        "move one of them"
                    );
                }
            }
        }
        check_tabs_apart();
    }

    void check_tabs_apart() {
        auto& tabs = parts_.blank.openings.tabs;
        for (std::size_t i = 0; i < tabs.size(); ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                const outline::Tab& one = tabs[i].opening;
                const outline::Tab& other = tabs[k].opening;
                if (one.begin < other.end + least_ && other.begin < one.end + least_) {
                    tabs[i].place.object(
                        "from",
                        "a tab on or close to another",
                        "at least " + shown(least_) + " between tabs",
                        "make one tab of them, or move one"
                    );
                }
            }
        }
    }

    ReadCase& parts_;
    const job::Job& job_;
    double least_ = 0;
    double bend_end_ = 0;
};

} // namespace

void settle_reliefs(ReadCase& parts, job::Job& job) {
    constexpr double drawn_apart = 0.05; // mm
    for (DrawnRelief& relief : parts.bend_line.drawn.reliefs) {
        const double edge = job.blank.flange_width_at(relief.station);
        if (std::isfinite(edge) && relief.mouth < edge - drawn_apart) {
            relief.place.object(
                "mouth",
                fmt::format("{:.4g} mm short of the flat edge", edge - relief.mouth),
                fmt::format(
                    "slots open at the flange's flat edge, {:.6g} mm from the bend tangent", edge
                ),
                "draw its sides up to the flat edge or past it"
            );
            continue;
        }
        double depth = edge - relief.bottom;
        if (std::abs(depth - 0.5 * relief.width) < drawn_apart) {
            depth = 0.5 * relief.width; // a half circle about a place on the edge
        }
        const outline::Notch notch{relief.station, relief.width, depth};
        job.blank.openings.notches.push_back(notch);
        parts.blank.openings.notches.push_back({notch, relief.place});
    }
}

void check_openings(ReadCase& parts, const job::Job& job) {
    if (std::isfinite(job.blank.flange_width)) { // else another check says why
        Check(parts, job).run();
    }
}

} // namespace flangewright::case_file
