// Will it split: what the part reaches beside what the sheet bears.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <span>

namespace flangewright::findings {

/// How the places of limits are called, beside interior_place and the rims.
inline constexpr const char* edge_place = "free edge";
inline constexpr const char* bend_place = "outer fibre of the bend";
inline constexpr const char* lip_bend_place = "outer fibre of the lip's bend";
inline constexpr const char* thickness_place = "thickness"; ///< the drawing's least one

/// Whether the place is one of the bends. Units: none. Source: none needed. Fails: never.
[[nodiscard]] bool is_bend(const std::string& place);

/// The largest outer strain that a solve finds round a nose, over that of an even bend of its
/// radius: a sheet does not bend evenly, nor did the strips of a bend table. Straight bends of 1 to
/// 6 thicknesses over leaf and wiper gave 1.02 to 1.07 (docs/theory-findings.md, "Verdict").
inline constexpr double uneven_bend = 1.07;

/// Largest engineering strain of the outer fibre that the bend table allows at a thickness: that of
/// the smallest tabulated radius, bent as unevenly as a sheet does. A row within 3 % is the same
/// gauge (common practice, no source); else the larger radius of the two neighbours between table
/// thicknesses, the first row below the table; empty above the table or without one. Units: mm,
/// strain in -. Source: marciniak-duncan-hu-2002 (outer fibre t / (2 r + t), from memory) and
/// derived here; the table's own source stands in the material. Fails: empty when unknown.
[[nodiscard]] std::optional<double>
allowed_bend_strain(std::span<const material::BendLimit> limits, double thickness);

/// Bend radius over thickness at which the outer fibre stretches so much: the inverse of the row
/// above; 0 (sharp) at and above a strain of 1, infinity at none.
/// Units: strain in -. Source: marciniak-duncan-hu-2002 (outer fibre t / (2 r + t), from memory).
/// Fails: never.
[[nodiscard]] double radius_over_thickness_of(double bend_strain);

/// Whether the bend table's radius is nothing when told with one decimal. The stretch that goes
/// with it, up to 100 %, is arithmetic, no strain that any sheet bears: it is not told.
/// Units: strain in -. Source: derived here from the row above. Fails: never.
[[nodiscard]] bool is_sharp_bend(double bend_strain);

/// Whether a share is too much to be called safe on such data: above half a limit that is neither
/// from a coupon nor published. Units: none. Source: common practice, no source. Fails: never.
[[nodiscard]] bool is_doubtful(double share, material::DataGrade grade);

/// Judges the worst of all steps. Limits: the stretch of the free edge, and of the rim that
/// stretches most, against what an edge of its finish bears (edge_limit.hpp), and the outer fibre
/// of the bend, and of the lip's if one is bent (from the nose radius or as computed, whichever is
/// larger), against the bend table. Where the drawing names a least thickness, also the thinning of
/// the part as its last step leaves it; that limit is the drawing's and none of the sheet, so its
/// share is never doubtful. `splits` above a share of 1; else `unknown` when a needed limit
/// is unknown; else `close` from the job's close_share, and above half a limit whose data are
/// neither from a coupon nor published; else `holds`. A limit governs when it alone would give the
/// verdict's word: the share is the largest and the grade the worst of those that govern. Units:
/// strains in -. Source: design definition of shares and words; half-limit rule: common practice,
/// no source (docs/theory-findings.md, "Verdict"). Fails: never.
[[nodiscard]] Verdict judge(const job::Job& job, std::span<const PartFindings> steps);

/// Share up to which a place within its limit holds: the user's close share, for a bend 1, and half
/// of a limit whose data are neither from a coupon nor published. Units: none. Source: as judge().
/// Fails: never.
[[nodiscard]] double
share_that_holds(const std::string& place, material::DataGrade grade, double close_share);

/// The word of one limit by itself. Units: none. Source: as judge(). Fails: never.
[[nodiscard]] VerdictWord word_of_limit(const LimitUse& use, double close_share);

/// Words from best to worst: what is unknown never hides what is known to be beyond its limit.
/// Units: none. Source: design words. Fails: never.
[[nodiscard]] int rank_of(VerdictWord word);

} // namespace flangewright::findings
