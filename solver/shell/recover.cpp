#include "solver/shell/recover.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::shell {

namespace {

enum Place : int { block_face, mid, outer_face };
constexpr int n_places = 3;

using Strains = std::array<material::SplitStrain, n_places>;

// All that one in-plane point says.
struct PointFields {
    Strains log_strain;
    std::array<Eigen::Vector3d, 2> stress; // outermost layers: block side, outer side; 11, 22, 12
    double plastic = 0;
};

// What the layers of one in-plane point remember.
struct Layers {
    std::span<const material::PointMemory> memory;
    std::span<const material::SplitStress> back_stresses;
};

PointFields read_point(
    const Section& section,
    const SectionStrain& strain,
    const FibreStretch& fibre,
    const Layers& layers
) {
    const std::span<const material::PointMemory> memory = layers.memory;
    const std::size_t n_back = section.back_stresses.size();
    PointFields fields;
    for (int place = 0; place < n_places; ++place) {
        const double z =
            fibre_height(fibre, 0.5 * (place - 1) * section.thickness, section.thickness);
        fields.log_strain[static_cast<std::size_t>(place)] = log_strain_at(strain, z).value();
    }
    const std::array<std::size_t, 2> outermost{0, memory.size() - 1};
    for (std::size_t i = 0; i < 2; ++i) {
        const std::size_t k = outermost[i];
        const double z =
            fibre_height(fibre, section.layers.position[k] * section.thickness, section.thickness);
        const material::PointUpdate point = update_layer(
            section,
            strain.rolling,
            log_strain_at(strain, z).value(),
            memory[k],
            layers.back_stresses.subspan(k * n_back, n_back)
        );
        const material::SplitStress& T = point.stress;
        fields.stress[i] << 0.5 * (T[0] + T[1]), 0.5 * (T[0] - T[1]), 0.5 * T[2];
    }
    for (const material::PointMemory& layer : memory) {
        fields.plastic = std::max(fields.plastic, layer.equivalent);
    }
    return fields;
}

// Value at a corner of the bilinear field through the four points.
template <typename Value>
Value at_corner(const std::array<Value, 4>& points, std::size_t corner) {
    constexpr double s =
        1.7320508075688772; // the corner lies sqrt(3) times as far out as the point
    const double near = 0.25 * (1 + s) * (1 + s);
    const double side = 0.25 * (1 + s) * (1 - s);
    const double far = 0.25 * (1 - s) * (1 - s);
    return near * points[corner] + side * (points[(corner + 1) % 4] + points[(corner + 3) % 4])
        + far * points[(corner + 2) % 4];
}

struct Sums {
    std::array<Eigen::Matrix3Xd, n_places> strain;
    Eigen::VectorXd weight;
};

void principal(const Eigen::Matrix3Xd& strain, Eigen::VectorXd& major, Eigen::VectorXd& minor) {
    const Eigen::VectorXd radius =
        (strain.row(1).array().square() + strain.row(2).array().square()).sqrt().matrix();
    major = strain.row(0).transpose() + radius;
    minor = strain.row(0).transpose() - radius;
}

void resize(SheetFields& fields, Sums& sums, Eigen::Index n) {
    for (Eigen::Matrix3Xd& strain : sums.strain) {
        strain = Eigen::Matrix3Xd::Zero(3, n);
    }
    sums.weight = Eigen::VectorXd::Zero(n);
    fields.plastic_strain = Eigen::VectorXd::Zero(n);
    fields.stress_block_face = Eigen::Matrix3Xd::Zero(3, n);
    fields.stress_outer_face = Eigen::Matrix3Xd::Zero(3, n);
}

void finish(SheetFields& fields, Sums& sums) {
    for (Eigen::Matrix3Xd& strain : sums.strain) {
        strain.array().rowwise() /= sums.weight.transpose().array();
    }
    fields.plastic_strain = fields.plastic_strain.cwiseQuotient(sums.weight);
    fields.stress_block_face.array().rowwise() /= sums.weight.transpose().array();
    fields.stress_outer_face.array().rowwise() /= sums.weight.transpose().array();
    principal(sums.strain[mid], fields.major_mid, fields.minor_mid);
    principal(sums.strain[block_face], fields.major_block_face, fields.minor_block_face);
    principal(sums.strain[outer_face], fields.major_outer_face, fields.minor_outer_face);
    fields.across_outer_face =
        (sums.strain[outer_face].row(0) - sums.strain[outer_face].row(1)).transpose();
    fields.across_block_face =
        (sums.strain[block_face].row(0) - sums.strain[block_face].row(1)).transpose();
}

} // namespace

SheetFields recover_fields(const ShellModel& model, const SheetState& state) {
    SheetFields fields;
    Sums sums;
    resize(fields, sums, model.n_nodes());
    fields.thickness = 2 * half_thickness(model, state);
    const auto n_layers = static_cast<std::size_t>(model.section.n_layers());
    const std::size_t n_shifts = n_layers * model.section.back_stresses.size();
    for (std::size_t e = 0; e < model.quads.size(); ++e) {
        const QuadNodes nodes = gather_nodes(model.quads[e], state.positions, state.directors);
        std::array<PointFields, 4> points;
        std::array<std::array<material::SplitStrain, 4>, n_places> strains;
        for (std::size_t i = 0; i < 4; ++i) {
            const std::size_t fibre = 4 * e + i;
            points[i] = read_point(
                model.section,
                quad_strain(model.references[e], nodes, static_cast<int>(i)),
                state.fibres[fibre],
                {std::span(state.points).subspan(fibre * n_layers, n_layers),
                 std::span(state.back_stresses).subspan(fibre * n_shifts, n_shifts)}
            );
            for (std::size_t place = 0; place < n_places; ++place) {
                strains[place][i] = points[i].log_strain[place];
            }
        }
        for (std::size_t corner = 0; corner < 4; ++corner) {
            const int node = model.quads[e][corner];
            const double weight = model.references[e].points[corner].area;
            sums.weight[node] += weight;
            for (std::size_t place = 0; place < n_places; ++place) {
                sums.strain[place].col(node) += weight * at_corner(strains[place], corner);
            }
            fields.plastic_strain[node] += weight * points[corner].plastic;
            fields.stress_block_face.col(node) += weight * points[corner].stress[0];
            fields.stress_outer_face.col(node) += weight * points[corner].stress[1];
        }
    }
    finish(fields, sums);
    return fields;
}

} // namespace flangewright::shell
