#include "tests/soak/random_job.hpp"

#include "io/sheet_library/sheet_library.hpp"
#include "io/units/angle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace flangewright::soak {

namespace {

using job::DriveKind;
using job::EndKind;
using outline::Curve;

constexpr double degree = std::numbers::pi / 180;

// The standard's distributions differ from library to library; these do not.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}

    double uniform(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
    }
    double log_uniform(double low, double high) {
        return std::exp(uniform(std::log(low), std::log(high)));
    }
    bool chance(double share) { return uniform(0, 1) < share; }
    std::size_t pick(std::size_t n) {
        return std::min(n - 1, static_cast<std::size_t>(uniform(0, static_cast<double>(n))));
    }

private:
    std::mt19937_64 engine_;
};

// As a user would write it, so that text and job are the same number.
double rounded(double value, double unit) {
    return std::round(value / unit) * unit;
}

struct Plan {
    Curve curve = Curve::straight;
    double radius = 0; // of the bend tangent line
    double sweep = 0; // deg
    double length = 0;
};

const sheet_library::KnownSheet& random_sheet(Dice& dice) {
    const auto sheets = sheet_library::known_sheets();
    return sheets[dice.pick(sheets.size())];
}

void choose_tools(Dice& dice, job::Job& job) {
    const double t = job.sheet.thickness;
    job.block.nose_radius = std::max(rounded(t * dice.log_uniform(1, 10), 0.01), t);
    const double wall = dice.chance(0.4) ? 90 : rounded(dice.uniform(30, 120), 1);
    const bool is_wiper = wall >= 90 && dice.chance(0.6);
    job.block.wall_angle = wall * degree;
    job.block.backing_setback = dice.chance(0.7) ? 0 : rounded(dice.uniform(0, 2) * t, 0.01);
    job.drive.kind = is_wiper ? DriveKind::wiper : DriveKind::leaf;
    job.drive.clearance = rounded(dice.uniform(1.05, 1.6), 0.01);
    job.drive.corner_radius = is_wiper ? rounded(std::max(dice.uniform(1, 4) * t, 1.0), 0.1) : 0;
    const double most = is_wiper ? std::min(wall, 90.0) : wall;
    const bool stops_early = dice.chance(0.2);
    job.drive.angle =
        (stops_early ? rounded(std::max(30.0, dice.uniform(0.5, 1) * most), 1) : most) * degree;
}

// Flat width whose edge stretches (concave) or shrinks (convex) by this share of what it may.
double width_for_edge_strain(const job::Job& job, const Plan& plan, double strain) {
    const double to_mid = job.block.nose_radius + 0.5 * job.sheet.thickness;
    return plan.curve == Curve::concave ? plan.radius - (plan.radius - to_mid) / (1 + strain)
                                        : (plan.radius + to_mid) / (1 - strain) - plan.radius;
}

double allowed_edge_strain(const material::SheetMaterial& material, Curve curve) {
    constexpr double shrink_most = 0.10; // beyond this a hand-formed edge is shrunk by other means
    constexpr double when_unknown = 0.15;
    return curve == Curve::convex ? shrink_most
                                  : material.total_elongation.value.value_or(when_unknown);
}

// Draws radius and width until the curve leaves room for the flange; false when it never does.
bool choose_plan(Dice& dice, job::Job& job, Plan& plan) {
    const double t = job.sheet.thickness;
    const double narrowest = job.block.wall_angle * (job.block.nose_radius + 0.5 * t) + 3 * t;
    const double widest = narrowest + dice.log_uniform(2, 20) * t;
    job.blank.web_width = rounded(dice.uniform(8, 20) * t, 0.1);
    if (plan.curve == Curve::straight) {
        job.blank.flange_width = rounded(widest, 0.1);
        return true;
    }
    const double room =
        job.block.nose_radius + job.drive.clearance * t + std::max(job.drive.corner_radius, 1.0);
    for (int i = 0; i < 100; ++i) {
        plan.radius = rounded(dice.log_uniform(30, 2000), 0.1);
        const double share = dice.uniform(0.1, 1.0);
        const double strain = share * allowed_edge_strain(job.sheet.material, plan.curve);
        const double width = std::min(widest, width_for_edge_strain(job, plan, strain));
        const bool has_room = plan.curve == Curve::concave
            ? plan.radius > 1.2 * room && width < plan.radius - 3 * t
            : job.blank.web_width < plan.radius - 3 * t;
        if (width > narrowest && has_room) {
            job.blank.flange_width = rounded(width, 0.1);
            return true;
        }
    }
    return false;
}

void choose_length(Dice& dice, job::Job& job, Plan& plan) {
    const double t = job.sheet.thickness;
    const double bend = job.block.wall_angle * (job.block.nose_radius + 0.5 * t);
    const double shortest = std::max({4.5 * t, 1.5 * bend, 1.0});
    double length = shortest * dice.uniform(1, 2);
    if (job.blank.start == EndKind::free || job.blank.end == EndKind::free) {
        length += job.blank.flange_width * dice.uniform(0.3, 1.2);
    }
    if (plan.curve == Curve::straight) {
        plan.length = rounded(length, 0.1);
        job.blank.line = outline::BendLine::straight(plan.length);
        return;
    }
    plan.sweep = rounded(std::clamp(length / plan.radius / degree, 0.6, 90.0), 0.01);
    job.blank.line = outline::BendLine::arc(plan.radius, plan.sweep * degree, plan.curve);
}

std::string word_for(EndKind end) {
    return end == EndKind::free ? "free" : "continues";
}

std::string line_text(const Plan& plan) {
    if (plan.curve == Curve::straight) {
        return fmt::format("curve = \"straight\"\nlength = {:g}\n", plan.length);
    }
    return fmt::format(
        "curve = \"{}\"\nradius = {:g}\nsweep = {:g}\n",
        plan.curve == Curve::concave ? "concave" : "convex",
        plan.radius,
        plan.sweep
    );
}

std::string text_for(const RandomJob& random, const Plan& plan) {
    const job::Job& job = random.job;
    const bool is_wiper = job.drive.kind == DriveKind::wiper;
    return fmt::format(
        "title = \"Soak {}\"\n\n[sheet]\nmaterial = \"{}\"\nthickness = {:g}\n\n[bend_line]\n{}\n"
        "[blank]\nweb_width = {:g}\nflat_width = {:g}\nstart = \"{}\"\nend = \"{}\"\n\n"
        "[block]\nnose_radius = {:g}\nwall_angle = {:g}\nbacking_setback = {:g}\n"
        "friction = {:g}\n\n[drive]\nkind = \"{}\"\nclearance = {:g}\nangle = "
        "{:g}\n{}\n[run]\naccuracy = \"quick\"\n",
        random.seed,
        random.sheet,
        job.sheet.thickness,
        line_text(plan),
        job.blank.web_width,
        job.blank.flange_width,
        word_for(job.blank.start),
        word_for(job.blank.end),
        job.block.nose_radius,
        units::degrees(job.block.wall_angle),
        job.block.backing_setback,
        job.block.friction,
        is_wiper ? "wiper" : "leaf",
        job.drive.clearance,
        units::degrees(job.drive.angle),
        is_wiper ? fmt::format("corner_radius = {:g}\n", job.drive.corner_radius) : ""
    );
}

} // namespace

RandomJob random_job(std::uint64_t seed) {
    constexpr std::array kinds{Curve::straight, Curve::concave, Curve::convex};
    Dice dice(seed);
    RandomJob random;
    random.seed = seed;
    Plan plan;
    plan.curve = kinds.at(seed % kinds.size());
    do { // until plan and tools fit each other
        const sheet_library::KnownSheet& sheet = random_sheet(dice);
        random.sheet = sheet.material.name;
        random.job.sheet.material = sheet.material;
        random.job.sheet.thickness = rounded(dice.log_uniform(0.4, 3), 0.01);
        choose_tools(dice, random.job);
    } while (!choose_plan(dice, random.job, plan));
    const double ends = dice.uniform(0, 1);
    random.job.blank.start = ends < 0.6 ? EndKind::free : EndKind::continues;
    random.job.blank.end = ends < 0.2 ? EndKind::free : EndKind::continues;
    choose_length(dice, random.job, plan);
    random.job.block.friction = dice.chance(0.5) ? 0 : rounded(dice.uniform(0.02, 0.25), 0.01);
    random.job.accuracy = job::Accuracy::quick;
    random.text = text_for(random, plan);
    return random;
}

} // namespace flangewright::soak
