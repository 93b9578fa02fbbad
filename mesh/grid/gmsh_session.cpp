#include "mesh/grid/gmsh_session.hpp"

#include "mesh/base/check.hpp"

#include <fmt/format.h>
#include <gmsh.h>

#include <array>
#include <clocale>
#include <csignal>
#include <exception>
#include <functional>
#include <mutex>
#include <string>
#include <unordered_map>

namespace flangewright::grid {

namespace {

/// Puts back what a library may change for the whole process when it starts: signal handlers and
/// the locale.
class ProcessSettings {
public:
    ProcessSettings() : locale_(std::setlocale(LC_ALL, nullptr)) {
        for (std::size_t i = 0; i < signals.size(); ++i) {
            sigaction(signals[i], nullptr, &handlers_[i]);
        }
    }
    ~ProcessSettings() { restore(); }
    ProcessSettings(const ProcessSettings&) = delete;
    ProcessSettings& operator=(const ProcessSettings&) = delete;

    void restore() const {
        for (std::size_t i = 0; i < signals.size(); ++i) {
            sigaction(signals[i], &handlers_[i], nullptr);
        }
        std::setlocale(LC_ALL, locale_.c_str());
    }

private:
    static constexpr std::array signals{SIGINT, SIGTERM, SIGHUP, SIGPIPE, SIGABRT, SIGFPE, SIGSEGV};
    std::array<struct sigaction, signals.size()> handlers_{};
    std::string locale_;
};

/// Gmsh from start to end: silent, with default settings, one at a time (it is one global model).
class GmshSession {
public:
    GmshSession() {
        gmsh::initialize(0, nullptr, false);
        settings_.restore();
        gmsh::option::setNumber("General.Terminal", 0);
        gmsh::option::setNumber("General.SaveSession", 0);
        gmsh::option::setNumber("General.SaveOptions", 0);
        gmsh::logger::start();
        gmsh::model::add("blank");
    }
    ~GmshSession() {
        try {
            gmsh::logger::stop();
            gmsh::finalize();
        } catch (...) { // NOLINT(bugprone-empty-catch): the mesh is already copied or given up
        }
    }
    GmshSession(const GmshSession&) = delete;
    GmshSession& operator=(const GmshSession&) = delete;

    /// What Gmsh logged as errors and warnings, on one line.
    [[nodiscard]] static std::string complaints() {
        std::vector<std::string> lines;
        gmsh::logger::get(lines);
        std::string text;
        for (const std::string& line : lines) {
            if (line.starts_with("Error") || line.starts_with("Warning")) {
                text += (text.empty() ? "" : "; ") + line;
            }
        }
        return text.empty() ? "no message given" : text;
    }

private:
    static std::mutex& one_at_a_time() {
        static std::mutex mutex;
        return mutex;
    }

    std::lock_guard<std::mutex> lock_{one_at_a_time()};
    ProcessSettings settings_;
};

OutsideProblem mesher_problem(const std::string& words) {
    return {
        "meshing the blank",
        fmt::format("the Gmsh library says: {}", words),
        "report this with the case file; a different width or element size may get round it"};
}

using Tags = std::vector<std::vector<int>>;

Tags add_corners(const PatchNet& net) {
    Tags tags;
    for (const std::vector<Eigen::Vector3d>& column : net.corners) {
        std::vector<int>& row = tags.emplace_back();
        for (const Eigen::Vector3d& corner : column) {
            row.push_back(gmsh::model::geo::addPoint(corner.x(), corner.y(), corner.z()));
        }
    }
    return tags;
}

void divide(int curve, const Division& division) {
    gmsh::model::geo::mesh::setTransfiniteCurve(
        curve, division.n_elements + 1, "Progression", division.ratio
    );
}

/// Sides along the line, [column][band boundary].
Tags add_sides_along(const PatchNet& net, const Tags& corners) {
    Tags sides(net.along.size());
    for (std::size_t i = 0; i < net.along.size(); ++i) {
        for (std::size_t j = 0; j <= net.across.size(); ++j) {
            sides[i].push_back(gmsh::model::geo::addLine(corners[i][j], corners[i + 1][j]));
            divide(sides[i].back(), net.along[i]);
        }
    }
    return sides;
}

/// Sides square to the line, [column boundary][band].
Tags add_sides_across(const PatchNet& net, const Tags& corners) {
    Tags sides(corners.size());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        for (std::size_t j = 0; j < net.across.size(); ++j) {
            sides[i].push_back(gmsh::model::geo::addLine(corners[i][j], corners[i][j + 1]));
            divide(sides[i].back(), net.across[j]);
        }
    }
    return sides;
}

void add_patches(const PatchNet& net) {
    const Tags corners = add_corners(net);
    const Tags along = add_sides_along(net, corners);
    const Tags across = add_sides_across(net, corners);
    for (std::size_t i = 0; i < net.along.size(); ++i) {
        for (std::size_t j = 0; j < net.across.size(); ++j) {
            const int loop = gmsh::model::geo::addCurveLoop(
                {along[i][j], across[i + 1][j], -along[i][j + 1], -across[i][j]}
            );
            const int patch = gmsh::model::geo::addPlaneSurface({loop});
            gmsh::model::geo::mesh::setTransfiniteSurface(patch);
            gmsh::model::geo::mesh::setRecombine(2, patch);
        }
    }
    gmsh::model::geo::synchronize();
}

/// Copies the quadrilaterals and the nodes they use.
PatchMesh copy_mesh() {
    constexpr int quadrilateral = 3; // Gmsh's number of the four-node element
    std::vector<std::size_t> element_tags;
    std::vector<std::size_t> corner_tags;
    gmsh::model::mesh::getElementsByType(quadrilateral, element_tags, corner_tags);
    std::vector<std::size_t> node_tags;
    std::vector<double> coordinates;
    std::vector<double> parameters;
    gmsh::model::mesh::getNodes(node_tags, coordinates, parameters);

    std::unordered_map<std::size_t, Eigen::Vector3d> position_of;
    for (std::size_t i = 0; i < node_tags.size(); ++i) {
        position_of[node_tags[i]] = Eigen::Map<const Eigen::Vector3d>(&coordinates[3 * i]);
    }
    PatchMesh mesh;
    std::unordered_map<std::size_t, int> number_of;
    for (const std::size_t tag : corner_tags) {
        number_of.try_emplace(tag, static_cast<int>(number_of.size()));
    }
    mesh.positions.resize(3, static_cast<Eigen::Index>(number_of.size()));
    for (const auto& [tag, number] : number_of) {
        mesh.positions.col(number) = position_of.at(tag);
    }
    for (std::size_t i = 0; i + 3 < corner_tags.size(); i += 4) {
        std::array<int, 4>& quad = mesh.quads.emplace_back();
        for (std::size_t corner = 0; corner < 4; ++corner) {
            quad[corner] = number_of.at(corner_tags[i + corner]);
        }
    }
    return mesh;
}

/// Lines round one polygon, each one element long.
int add_loop(const std::vector<Eigen::Vector3d>& corners) {
    std::vector<int> points;
    points.reserve(corners.size());
    for (const Eigen::Vector3d& corner : corners) {
        points.push_back(gmsh::model::geo::addPoint(corner.x(), corner.y(), corner.z()));
    }
    std::vector<int> sides;
    sides.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        sides.push_back(gmsh::model::geo::addLine(points[i], points[(i + 1) % points.size()]));
        divide(sides.back(), {1, 1});
    }
    return gmsh::model::geo::addCurveLoop(sides);
}

void add_region(const Region& region) {
    gmsh::option::setNumber("Mesh.SubdivisionAlgorithm", 1); // all into quadrilaterals
    std::vector<int> loops;
    for (const std::vector<Eigen::Vector3d>& corners : region.loops) {
        loops.push_back(add_loop(corners));
    }
    const int surface = gmsh::model::geo::addPlaneSurface(loops);
    gmsh::model::geo::mesh::setRecombine(2, surface);
    gmsh::model::geo::synchronize();
}

/// Lets the library mesh what `add` hands it.
Result<PatchMesh> mesh_with_library(const std::function<void()>& add) {
    std::string words;
    try {
        const GmshSession session;
        try {
            add();
            gmsh::model::mesh::generate(2);
            return copy_mesh();
        } catch (...) { // whatever Gmsh throws (text or a number), its log says more
            words = GmshSession::complaints();
        }
    } catch (...) {
        words = "it does not start";
    }
    return tl::unexpected(mesher_problem(words));
}

void check_places(const std::vector<std::vector<Eigen::Vector3d>>& lists) {
    for (const std::vector<Eigen::Vector3d>& corners : lists) {
        for (const Eigen::Vector3d& corner : corners) {
            check(corner.allFinite(), "a corner is a place");
        }
    }
}

} // namespace

Result<PatchMesh> mesh_patches(const PatchNet& net) {
    check(net.corners.size() == net.along.size() + 1, "a net has a column between two boundaries");
    check(
        net.corners.front().size() == net.across.size() + 1, "a net has a band between two lines"
    );
    check_places(net.corners);
    return mesh_with_library([&net] { add_patches(net); });
}

Result<PatchMesh> mesh_region(const Region& region) {
    check(!region.loops.empty(), "a region has an outer side");
    for (const std::vector<Eigen::Vector3d>& corners : region.loops) {
        check(corners.size() >= 3, "a polygon has three corners");
    }
    check_places(region.loops);
    return mesh_with_library([&region] { add_region(region); });
}

} // namespace flangewright::grid
