// What is said about a part after each step, in the words of the trade. mm, MPa, rad, strains in -.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::findings {

/// Smallest, mean and largest of a figure along the bend line.
struct Spread {
    double least = 0;
    double mean = 0;
    double most = 0;
};

/// Figures at one station.
struct StationFindings {
    double station = 0;
    double flange_angle = 0; ///< web plane to straight part of the flange
    std::optional<double> springback; ///< held angle minus this angle; only once released
    double edge_strain = 0; ///< log, free edge along its own tangent, mid-thickness
    double edge_thickness = 0;
    double least_thickness = 0; ///< over the whole station line
    double flange_depth = 0; ///< outside face of web to free edge, or lip, along the flange
    double web_gap = 0; ///< largest gap beneath the web at this station, part set on the block
    std::optional<double> lip_angle; ///< flange to straight part of the lip; only with a bent lip
    std::optional<double> lip_depth; ///< outside of the lip's bend to its edge, along the lip
};

/// Figures of a bent lip.
struct LipFindings {
    Spread angle; ///< flange to lip
    Spread angle_middle; ///< over stations away from free ends
    std::optional<double> springback_middle; ///< of that mean; only once released
    double depth_mean = 0;
    double bend_strain_most = 0; ///< log, outer fibre across the lip's bend
    double bend_strain_used = 0; ///< the same since the sheet was last soft
};

/// What interrupts a sheet or its edge.
enum class OpeningKind { hole, notch, tab };

/// Figures of one opening's rim.
struct OpeningFindings {
    OpeningKind kind = OpeningKind::hole;
    int number = 1; ///< as in the case, each kind counted from 1
    double tension_most = 0; ///< log, largest stretch along the rim; below zero when all shrank
    double tension_used = 0; ///< the same since the sheet was last soft
    double station = 0; ///< where, in the flat
    double distance = 0;
    std::optional<double> least_diameter; ///< of a hole, along the chord
    std::optional<double> most_diameter;
};

/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string word_for(OpeningKind kind);

/// The place away from edges and bends that is nearest to a local neck.
struct NeckFindings {
    double share = 0; ///< of its path since the sheet was last soft; above 1: necked on the way
    double station = 0; ///< mm
    double distance = 0; ///< flat, past the bend tangent, mm
    double major_strain = 0; ///< log, mid-surface, since the sheet was last soft
    int node = -1; ///< of the mesh of this step
    material::DataGrade grade = material::DataGrade::unknown;
    std::string limit_of = {}; ///< what the limit is worked out from
    std::string source = {};
    std::optional<double> other_share =
        {}; ///< on another curve of the sheet; empty: not looked for
    std::string other_law = {}; ///< name of that curve's law
};

/// Figures of the part after one step.
struct PartFindings {
    std::vector<StationFindings> stations;
    Spread flange_angle;
    Spread flange_angle_middle; ///< over stations away from free ends
    std::optional<Spread> springback;
    std::optional<Spread> springback_middle;
    double edge_strain_most = 0; ///< log, the value largest in size; negative: shrunk
    double edge_tension_most = 0; ///< log, the largest stretch; below zero when all of it shrank
    double edge_strain_station = 0; ///< where
    double edge_tension_used = 0; ///< log, the largest stretch since the sheet was last soft
    double thinning_most = 0; ///< 1 - t/t0
    double thinning_station = 0;
    double thinning_distance = 0; ///< flat distance past the bend tangent
    double bend_strain_most = 0; ///< log, outer fibre across the bend
    double bend_strain_used = 0; ///< the same since the sheet was last soft
    double web_lift = 0; ///< largest gap beneath the web, part set on the block
    double flange_depth_mean = 0; ///< to the free edge, trim allowance included
    /// Radius of the line at the bend tangent fitted to the present shape; infinity when straight
    /// and for a line of several radii, which no one circle fits.
    double plan_radius = 0;
    std::optional<LipFindings> lip; ///< empty: no lip is bent yet
    std::vector<OpeningFindings> openings; ///< one per rim
    std::optional<NeckFindings> neck; ///< empty: necks were not looked for
    std::vector<std::string> notes; ///< what a reader of these figures must know, plain sentences
};

/// What governs a verdict.
enum class VerdictWord { holds, close, splits, too_thin, unknown };

/// Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string word_for(VerdictWord word);

/// One limit looked at.
struct LimitUse {
    std::string place; ///< "free edge", "rim of hole 2", "outer fibre of the bend", "sheet away
                       ///< from edges and bends", "thickness"
    bool is_cut_edge = false; ///< free edge or rim, not a bend
    std::string limit_of = {}; ///< of a cut edge: "uniform elongation", "a filed edge"; of the
                               ///< interior what its limit is worked out from
    double reached = 0; ///< engineering strain; of the thickness thinning
    std::optional<double> allowed; ///< same; empty when unknown
    std::optional<double> share;
    bool is_needed = true; ///< false: nothing here can split, whatever the limit
    VerdictWord word = VerdictWord::unknown; ///< of this limit alone
    material::DataGrade grade = material::DataGrade::unknown;
    std::string source;
    std::string beside = {}; ///< a sentence: the share as another law of the same sheet has it
};

/// Will it split, and how is that known.
struct Verdict {
    VerdictWord word = VerdictWord::unknown;
    std::optional<double> share_used; ///< of the limit that governs
    std::string because; ///< a few plain sentences
    material::DataGrade grade = material::DataGrade::unknown;
    std::vector<LimitUse> limits;
};

/// The lip by hand.
struct LipByHand {
    double edge_stretch = 0; ///< engineering, radius ratio of the net edge, lip bent over flat
    double edge_strain = 0; ///< log
    double bend_strain = 0; ///< log, outer fibre, mid-surface kept
    double bend_allowance = 0; ///< flat length round the second nose, mm
    double mould_setback = 0; ///< lip's tangent to its mould point, mm
    double bend_begin = 0; ///< flat width from the flange's bend tangent to the lip's, mm
    double flat_width = 0; ///< of the lip, from there to its net edge, mm
    double springback = 0; ///< ideal strip bent to the second nose, rad
};

/// The same job by hand.
struct HandCalculation {
    double edge_stretch = 0; ///< engineering, radius ratio
    double edge_strain = 0; ///< log
    double edge_thickness_ratio = 1;
    std::optional<double> edge_r_value; ///< of a rolled sheet along the edge; empty: isotropic
    double bend_strain = 0; ///< log, outer fibre, mid-surface kept
    double bend_allowance = 0; ///< flat length round the nose, mm
    double mould_setback = 0; ///< tangent to mould point, mm
    double flat_width = 0; ///< bend tangent to free edge, mm
    double springback = 0; ///< ideal strip bent to the nose, rad
    double springback_moment = 0; ///< N mm per mm
    double block_angle_for_wanted = 0; ///< angle to cut the block to, for the wanted angle, rad
    std::optional<LipByHand> lip; ///< empty: the job has none
};

/// A figure that differs from its hand calculation by more than a third, said in a sentence.
struct Disagreement {
    std::string figure;
    double computed = 0;
    double by_hand = 0;
    std::string sentence;
};

} // namespace flangewright::findings
