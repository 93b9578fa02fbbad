#include "solver/shell/quad4.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>

#include <cmath>

namespace flangewright::shell {

namespace {

using Vector3 = Eigen::Vector3d;
using Matrix34 = Eigen::Matrix<double, 3, 4>;
using Vector5 = Eigen::Matrix<double, 5, 1>;
using Vector9 = Eigen::Matrix<double, 9, 1>;
using Matrix8 = Eigen::Matrix<double, 8, 8>;

constexpr double shear_factor = 5.0 / 6.0;
const double gauss = 1 / std::sqrt(3.0);

// Nodes at (-1,-1), (1,-1), (1,1), (-1,1).
struct Shape {
    Eigen::Vector4d r; // derivative over r
    Eigen::Vector4d s;
};

Shape shape_at(double r, double s) {
    return {
        0.25 * Eigen::Vector4d(-(1 - s), 1 - s, 1 + s, -(1 + s)),
        0.25 * Eigen::Vector4d(-(1 - r), -(1 + r), 1 + r, 1 - r),
    };
}

struct InPlane {
    double r, s;
};

InPlane gauss_point(int point) {
    constexpr std::array<double, 4> r{-1, 1, 1, -1};
    constexpr std::array<double, 4> s{-1, -1, 1, 1};
    const auto at = static_cast<std::size_t>(point);
    return {r[at] * gauss, s[at] * gauss};
}

Shape shape_of(InPlane at) {
    return shape_at(at.r, at.s);
}

// The five places where membrane strains are tied: rr at (0,1) and (0,-1), ss at (1,0) and (-1,0),
// rs at the middle. Shear is tied at the first four.
struct Tying {
    Eigen::Vector4d derivative; // over r or s, at that place
    Eigen::Vector4d mean; // shape functions there
};

const std::array<Tying, 4>& tyings() {
    static const std::array<Tying, 4> places{{
        {{0, 0, 0.5, -0.5}, {0, 0, 0.5, 0.5}},
        {{-0.5, 0.5, 0, 0}, {0.5, 0.5, 0, 0}},
        {{0, -0.5, 0.5, 0}, {0, 0.5, 0.5, 0}},
        {{-0.5, 0, 0, 0.5}, {0.5, 0, 0, 0.5}},
    }};
    return places;
}

const Shape& middle() {
    static const Shape shape = shape_at(0, 0);
    return shape;
}

Vector5 tied_membrane(const Matrix34& x) {
    Vector5 e;
    for (int i = 0; i < 4; ++i) {
        e[i] = 0.5 * (x * tyings()[static_cast<std::size_t>(i)].derivative).squaredNorm();
    }
    e[4] = 0.5 * (x * middle().r).dot(x * middle().s);
    return e;
}

Eigen::Vector4d tied_shear(const QuadNodes& nodes) {
    Eigen::Vector4d g;
    for (int i = 0; i < 4; ++i) {
        const Tying& place = tyings()[static_cast<std::size_t>(i)];
        g[i] = (nodes.positions * place.derivative).dot(nodes.directors * place.mean);
    }
    return g;
}

// Convected (rr, ss, rs) of bending and of the part quadratic in z.
Vector3 bending_of(const QuadNodes& nodes, const Shape& at) {
    const Vector3 ar = nodes.positions * at.r;
    const Vector3 as = nodes.positions * at.s;
    const Vector3 dr = nodes.directors * at.r;
    const Vector3 ds = nodes.directors * at.s;
    return {ar.dot(dr), as.dot(ds), 0.5 * (ar.dot(ds) + as.dot(dr))};
}

Vector3 quadratic_of(const QuadNodes& nodes, const Shape& at) {
    const Vector3 dr = nodes.directors * at.r;
    const Vector3 ds = nodes.directors * at.s;
    return 0.5 * Vector3(dr.squaredNorm(), ds.squaredNorm(), dr.dot(ds));
}

// Assumed membrane field: rows rr, ss, rs; columns the five tied strains.
Eigen::Matrix<double, 3, 5> membrane_field(const Matrix34& x, double r, double s) {
    const Vector3 xr = x * middle().r;
    const Vector3 xs = x * middle().s;
    const Vector3 xd = 0.25 * (x.col(0) - x.col(1) + x.col(2) - x.col(3));
    // Dual vectors of xr, xs in their plane.
    const Vector3 normal = xr.cross(xs);
    const double size = normal.squaredNorm();
    const double cr = xd.dot(xs.cross(normal)) / size;
    const double cs = xd.dot(normal.cross(xr)) / size;
    const double d = cr * cr + cs * cs - 1;
    const double aA = cr * (cr - 1) / (2 * d);
    const double aB = cr * (cr + 1) / (2 * d);
    const double aC = cs * (cs - 1) / (2 * d);
    const double aD = cs * (cs + 1) / (2 * d);
    const double aE = 2 * cr * cs / d;
    Eigen::Matrix<double, 3, 5> field;
    field << 0.5 * (1 - 2 * aA + s + 2 * aA * s * s), 0.5 * (1 - 2 * aB - s + 2 * aB * s * s),
        aC * (s * s - 1), aD * (s * s - 1), aE * (s * s - 1), //
        aA * (r * r - 1), aB * (r * r - 1), 0.5 * (1 - 2 * aC + r + 2 * aC * r * r),
        0.5 * (1 - 2 * aD - r + 2 * aD * r * r), aE * (r * r - 1), //
        0.25 * (r + 4 * aA * r * s), 0.25 * (-r + 4 * aB * r * s), 0.25 * (s + 4 * aC * r * s),
        0.25 * (-s + 4 * aD * r * s), 1 + aE * r * s;
    return field;
}

// Assumed shear: gamma_r from the first two tyings, gamma_s from the others.
Eigen::Matrix<double, 2, 4> shear_field(double r, double s) {
    Eigen::Matrix<double, 2, 4> field;
    field << 0.5 * (1 + s), 0.5 * (1 - s), 0, 0, 0, 0, 0.5 * (1 + r), 0.5 * (1 - r);
    return field;
}

QuadReference::Point make_point(const QuadNodes& start, const Eigen::Matrix3d& axes, int point) {
    const InPlane at = gauss_point(point);
    const Shape shape = shape_of(at);
    const Vector3 ar = start.positions * shape.r;
    const Vector3 as = start.positions * shape.s;
    // Local axes of this point: the element's first axis laid into the point's own plane.
    const Vector3 normal = ar.cross(as).normalized();
    const Vector3 first = (axes.row(0).transpose() - axes.row(0).dot(normal) * normal).normalized();
    const Vector3 second = normal.cross(first);
    Eigen::Matrix2d J; // rows: r, s; columns: local 1, 2
    J << ar.dot(first), ar.dot(second), as.dot(first), as.dot(second);
    const Eigen::Matrix2d K = J.inverse(); // local i over convected a
    QuadReference::Point p;
    Eigen::Matrix3d to_cartesian; // (rr, ss, rs) -> (E11, E22, 2 E12)
    to_cartesian << K(0, 0) * K(0, 0), K(0, 1) * K(0, 1), 2 * K(0, 0) * K(0, 1), //
        K(1, 0) * K(1, 0), K(1, 1) * K(1, 1), 2 * K(1, 0) * K(1, 1), //
        2 * K(0, 0) * K(1, 0), 2 * K(0, 1) * K(1, 1), 2 * (K(0, 0) * K(1, 1) + K(0, 1) * K(1, 0));
    Eigen::Matrix3d split;
    split << 1, 1, 0, 1, -1, 0, 0, 0, 1;
    p.to_split = split * to_cartesian;
    p.membrane = p.to_split * membrane_field(start.positions, at.r, at.s);
    p.shear = K;
    p.bending_start = bending_of(start, shape);
    p.quadratic_start = quadratic_of(start, shape);
    p.area = J.determinant();
    return p;
}

// Rows of first derivatives over (4 positions, 4 directors), each 3 components.
using Row24 = Eigen::Matrix<double, 1, 24>;

template <typename Rows>
void add_position(Rows&& row, const Eigen::Vector4d& shape, const Vector3& factor) {
    for (int n = 0; n < 4; ++n) {
        row.template segment<3>(3 * n) += shape[n] * factor.transpose();
    }
}

template <typename Rows>
void add_director(Rows&& row, const Eigen::Vector4d& shape, const Vector3& factor) {
    for (int n = 0; n < 4; ++n) {
        row.template segment<3>(12 + 3 * n) += shape[n] * factor.transpose();
    }
}

// First derivatives of the tied strains and shears.
struct TiedRows {
    Eigen::Matrix<double, 5, 24> membrane = Eigen::Matrix<double, 5, 24>::Zero();
    Eigen::Matrix<double, 4, 24> shear = Eigen::Matrix<double, 4, 24>::Zero();
};

TiedRows tied_rows(const QuadNodes& now) {
    TiedRows rows;
    for (int i = 0; i < 4; ++i) {
        const Tying& place = tyings()[static_cast<std::size_t>(i)];
        const Vector3 along = now.positions * place.derivative;
        const Vector3 director = now.directors * place.mean;
        add_position(rows.membrane.row(i), place.derivative, along);
        add_position(rows.shear.row(i), place.derivative, director);
        add_director(rows.shear.row(i), place.mean, along);
    }
    add_position(rows.membrane.row(4), middle().r, 0.5 * (now.positions * middle().s));
    add_position(rows.membrane.row(4), middle().s, 0.5 * (now.positions * middle().r));
    return rows;
}

// First derivatives of the nine section strains at a point.
Eigen::Matrix<double, 9, 24> section_rows(
    const QuadNodes& now, const QuadReference::Point& p, const Shape& at, const TiedRows& tied
) {
    const Vector3 ar = now.positions * at.r;
    const Vector3 as = now.positions * at.s;
    const Vector3 dr = now.directors * at.r;
    const Vector3 ds = now.directors * at.s;
    Eigen::Matrix<double, 3, 24> bending = Eigen::Matrix<double, 3, 24>::Zero();
    add_position(bending.row(0), at.r, dr);
    add_director(bending.row(0), at.r, ar);
    add_position(bending.row(1), at.s, ds);
    add_director(bending.row(1), at.s, as);
    add_position(bending.row(2), at.r, 0.5 * ds);
    add_position(bending.row(2), at.s, 0.5 * dr);
    add_director(bending.row(2), at.r, 0.5 * as);
    add_director(bending.row(2), at.s, 0.5 * ar);
    Eigen::Matrix<double, 3, 24> quadratic = Eigen::Matrix<double, 3, 24>::Zero();
    add_director(quadratic.row(0), at.r, dr);
    add_director(quadratic.row(1), at.s, ds);
    add_director(quadratic.row(2), at.r, 0.5 * ds);
    add_director(quadratic.row(2), at.s, 0.5 * dr);
    Eigen::Matrix<double, 9, 24> rows;
    rows.topRows<3>().noalias() = p.membrane * tied.membrane;
    rows.middleRows<3>(3).noalias() = p.to_split * bending;
    rows.bottomRows<3>().noalias() = p.to_split * quadratic;
    return rows;
}

// Stress that multiplies each second derivative of a strain; every strain is a quadratic form of
// the nodal vectors, so its second derivative is a number for each pair of them (times identity).
void add_section_geometry(
    Matrix8& geometry, const Vector9& resultant, const QuadReference::Point& p, const Shape& at
) {
    const Vector3 m = p.to_split.transpose() * resultant.segment<3>(3);
    const Vector3 q = p.to_split.transpose() * resultant.tail<3>();
    const Eigen::Matrix4d rr = at.r * at.r.transpose();
    const Eigen::Matrix4d ss = at.s * at.s.transpose();
    const Eigen::Matrix4d rs = 0.5 * (at.r * at.s.transpose() + at.s * at.r.transpose());
    const Eigen::Matrix4d mixed = m[0] * rr + m[1] * ss + m[2] * rs;
    geometry.topRightCorner<4, 4>() += mixed;
    geometry.bottomLeftCorner<4, 4>() += mixed.transpose();
    geometry.bottomRightCorner<4, 4>() += q[0] * rr + q[1] * ss + q[2] * rs;
}

void add_tied_geometry(Matrix8& geometry, const Vector5& membrane, const Eigen::Vector4d& shear) {
    for (int i = 0; i < 4; ++i) {
        const Tying& place = tyings()[static_cast<std::size_t>(i)];
        geometry.topLeftCorner<4, 4>() +=
            membrane[i] * place.derivative * place.derivative.transpose();
        const Eigen::Matrix4d mixed = shear[i] * place.derivative * place.mean.transpose();
        geometry.topRightCorner<4, 4>() += mixed;
        geometry.bottomLeftCorner<4, 4>() += mixed.transpose();
    }
    const Eigen::Matrix4d rs =
        0.5 * (middle().r * middle().s.transpose() + middle().s * middle().r.transpose());
    geometry.topLeftCorner<4, 4>() += membrane[4] * rs;
}

// Turns rows over nodal vectors into rows over the nodes' degrees of freedom.
template <int n_rows>
Eigen::Matrix<double, n_rows, dof_per_quad>
project(const Eigen::Matrix<double, n_rows, 24>& rows, const QuadBases& bases) {
    Eigen::Matrix<double, n_rows, dof_per_quad> projected;
    for (int n = 0; n < 4; ++n) {
        const auto at = static_cast<std::size_t>(n);
        projected.template middleCols<3>(dof_per_node * n).noalias() =
            rows.template middleCols<3>(3 * n) * bases.displacement[at];
        projected.template middleCols<2>(dof_per_node * n + 3).noalias() =
            rows.template middleCols<3>(12 + 3 * n) * bases.rotation[at];
    }
    return projected;
}

// Stiffness of the tied shears, summed over the four points.
Eigen::Matrix4d tied_shear_tangent(const Section& section, const QuadReference& reference) {
    const double stiffness = shear_factor * section.thickness * section.elasticity.youngs_modulus
        / (2 * (1 + section.elasticity.poisson_ratio));
    Eigen::Matrix4d tangent = Eigen::Matrix4d::Zero();
    for (int point = 0; point < 4; ++point) {
        const QuadReference::Point& p = reference.points[static_cast<std::size_t>(point)];
        const InPlane at = gauss_point(point);
        const Eigen::Matrix<double, 2, 4> shear = p.shear * shear_field(at.r, at.s);
        tangent += stiffness * p.area * shear.transpose() * shear;
    }
    return tangent;
}

// Adds rows' * tangent * rows for a symmetric tangent, in the nodes' degrees of freedom.
template <int n_rows>
void add_stiffness(
    QuadForce& result,
    const Eigen::Matrix<double, n_rows, 24>& rows,
    const Eigen::Matrix<double, n_rows, n_rows>& tangent,
    const QuadBases& bases
) {
    const Eigen::Matrix<double, n_rows, dof_per_quad> B = project<n_rows>(rows, bases);
    const Eigen::Matrix<double, n_rows, dof_per_quad> DB = tangent.lazyProduct(B);
    // Below the diagonal blocks of the nodes only; quad_force() mirrors the rest at the end.
    const auto add_node = [&]<int node>(std::integral_constant<int, node>) {
        constexpr int begin = dof_per_node * node;
        constexpr int left = dof_per_quad - begin;
        result.stiffness.template block<left, dof_per_node>(begin, begin) +=
            B.template middleCols<left>(begin).transpose().lazyProduct(
                DB.template middleCols<dof_per_node>(begin)
            );
    };
    add_node(std::integral_constant<int, 0>{});
    add_node(std::integral_constant<int, 1>{});
    add_node(std::integral_constant<int, 2>{});
    add_node(std::integral_constant<int, 3>{});
}

void add_geometry(QuadForce& result, const Matrix8& geometry, const QuadBases& bases) {
    for (int i = 0; i < 4; ++i) {
        const Eigen::Matrix3d& Ri = bases.displacement[static_cast<std::size_t>(i)];
        const Eigen::Matrix<double, 3, 2>& Ti = bases.rotation[static_cast<std::size_t>(i)];
        for (int j = 0; j < 4; ++j) {
            const Eigen::Matrix3d& Rj = bases.displacement[static_cast<std::size_t>(j)];
            const Eigen::Matrix<double, 3, 2>& Tj = bases.rotation[static_cast<std::size_t>(j)];
            const int row = dof_per_node * i;
            const int col = dof_per_node * j;
            auto& K = result.stiffness;
            K.block<3, 3>(row, col) += geometry(i, j) * Ri.transpose() * Rj;
            K.block<3, 2>(row, col + 3) += geometry(i, 4 + j) * Ri.transpose() * Tj;
            K.block<2, 3>(row + 3, col) += geometry(4 + i, j) * Ti.transpose() * Rj;
            K.block<2, 2>(row + 3, col + 3) += geometry(4 + i, 4 + j) * Ti.transpose() * Tj;
        }
    }
}

// The unit director curves away from its tangent plane: second derivative -d.
void add_director_geometry(QuadForce& result, const Row24& gradient, const QuadNodes& now) {
    for (int n = 0; n < 4; ++n) {
        const double along = gradient.segment<3>(12 + 3 * n).dot(now.directors.col(n));
        result.stiffness(dof_per_node * n + 3, dof_per_node * n + 3) -= along;
        result.stiffness(dof_per_node * n + 4, dof_per_node * n + 4) -= along;
    }
}

} // namespace

QuadReference make_quad_reference(const QuadNodes& start, const Eigen::Vector3d& along) {
    QuadReference reference;
    const Vector3 normal =
        (start.positions * middle().r).cross(start.positions * middle().s).normalized();
    Vector3 first = along - along.dot(normal) * normal;
    if (first.norm() < 1e-6) {
        first = start.positions * middle().r;
    }
    first.normalize();
    reference.axes.row(0) = first.transpose();
    reference.axes.row(1) = normal.cross(first).transpose();
    reference.axes.row(2) = normal.transpose();
    for (int point = 0; point < 4; ++point) {
        reference.points[static_cast<std::size_t>(point)] =
            make_point(start, reference.axes, point);
    }
    reference.tied_start = tied_membrane(start.positions);
    reference.shear_start = tied_shear(start);
    return reference;
}

SectionStrain quad_strain(const QuadReference& reference, const QuadNodes& now, int point) {
    const QuadReference::Point& p = reference.points[static_cast<std::size_t>(point)];
    const InPlane at = gauss_point(point);
    const Shape shape = shape_of(at);
    return {
        p.membrane * (tied_membrane(now.positions) - reference.tied_start),
        p.to_split * (bending_of(now, shape) - p.bending_start),
        p.to_split * (quadratic_of(now, shape) - p.quadratic_start),
        reference.rolling,
    };
}

QuadForce quad_force(
    const Section& section,
    const QuadReference& reference,
    const QuadNodes& now,
    const QuadBases& bases,
    const QuadPoints& points,
    bool with_stiffness
) {
    QuadForce result;
    if (with_stiffness) {
        result.stiffness.setZero();
    }
    const auto n_layers = static_cast<std::size_t>(section.n_layers());
    const std::size_t n_shifts = n_layers * section.back_stresses.size();
    const TiedRows tied = tied_rows(now);
    Row24 gradient = Row24::Zero(); // of the strain energy over the nodal vectors
    Matrix8 geometry = Matrix8::Zero();
    Vector5 tied_stress = Vector5::Zero();
    for (std::size_t point = 0; point < 4; ++point) {
        const QuadReference::Point& p = reference.points[point];
        const SectionForce force = integrate_section(
            section,
            quad_strain(reference, now, static_cast<int>(point)),
            points.fibres[point],
            points.memory.subspan(point * n_layers, n_layers),
            with_stiffness,
            points.back_stresses.subspan(point * n_shifts, n_shifts)
        );
        if (!force.has_converged) {
            result.has_converged = false;
            return result;
        }
        const Shape shape = shape_of(gauss_point(static_cast<int>(point)));
        const Vector9 resultant = p.area * force.resultant;
        const Eigen::Matrix<double, 9, 24> rows = section_rows(now, p, shape, tied);
        gradient.noalias() += resultant.transpose() * rows;
        if (with_stiffness) {
            Eigen::Matrix<double, 9, 9> tangent = p.area * force.tangent;
            if (n_shifts > 0) {
                tangent = (0.5 * (tangent + tangent.transpose())).eval();
            }
            add_stiffness<9>(result, rows, tangent, bases);
            add_section_geometry(geometry, resultant, p, shape);
            tied_stress += p.membrane.transpose() * resultant.head<3>();
        }
    }
    const Eigen::Matrix4d shear_tangent = tied_shear_tangent(section, reference);
    const Eigen::Vector4d shear_stress = shear_tangent * (tied_shear(now) - reference.shear_start);
    gradient.noalias() += shear_stress.transpose() * tied.shear;
    result.force = project<1>(gradient, bases).transpose();
    if (with_stiffness) {
        add_stiffness<4>(result, tied.shear, shear_tangent, bases);
        add_tied_geometry(geometry, tied_stress, shear_stress);
        add_geometry(result, geometry, bases);
        add_director_geometry(result, gradient, now);
        result.stiffness.triangularView<Eigen::StrictlyUpper>() = result.stiffness.transpose();
    }
    return result;
}

} // namespace flangewright::shell
