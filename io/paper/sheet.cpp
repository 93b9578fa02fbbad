#include "io/paper/sheet.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace flangewright::paper {

namespace {

using Eigen::Vector2d;

const std::map<Pen, PenLook>& looks() {
    static const std::map<Pen, PenLook> all{
        {Pen::cut, {"CUT_OUTLINE", 0.3}},
        {Pen::net, {"NET_OUTLINE", 0.2, {3, 1}, 5}},
        {Pen::bend, {"BEND_LINE", 0.2, {6, 1.5}}},
        {Pen::tangent, {"BEND_TANGENT", 0.15, {1, 1}, 8}},
        {Pen::station, {"STATIONS", 0.15, {}, 8}},
        {Pen::hole, {"HOLES", 0.2}},
        {Pen::grain, {"GRAIN", 0.3}},
        {Pen::middle, {"MIDDLE", 0.2, {8, 1.5, 1, 1.5}, 8}},
        {Pen::form_block, {"FORM_BLOCK", 0.3}},
        {Pen::backing, {"BACKING_BLOCK", 0.3}},
        {Pen::section, {"SECTION", 0.3}},
        {Pen::sheet, {"SHEET", 0.15, {}, 5}},
        {Pen::lip_block, {"LIP_BLOCK", 0.3}},
        {Pen::dimension, {"DIMENSIONS", 0.13, {}, 8}},
        {Pen::text, {"TEXT", 0.15, {}, 8}}};
    return all;
}

Vector2d turned(const Vector2d& vector, double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {c * vector.x() - s * vector.y(), s * vector.x() + c * vector.y()};
}

class Reach {
public:
    void take(const Vector2d& point, double around = 0) {
        low_ = low_.cwiseMin((point.array() - around).matrix());
        high_ = high_.cwiseMax((point.array() + around).matrix());
    }
    [[nodiscard]] Extent found() const {
        check(low_.x() <= high_.x(), "something is drawn");
        return {low_, high_};
    }

private:
    Vector2d low_ = Vector2d::Constant(std::numeric_limits<double>::max());
    Vector2d high_ = -low_;
};

void take_words(Reach& reach, const Words& words) {
    const double width = 0.6 * words.height * static_cast<double>(words.text.size());
    const double begin = words.is_centred ? -0.5 * width : 0;
    for (const double x : {begin, begin + width}) {
        for (const double y : {-0.3 * words.height, words.height}) {
            reach.take(words.at + turned({x, y}, words.turn));
        }
    }
}

} // namespace

const PenLook& look_of(Pen pen) {
    return looks().at(pen);
}

const std::vector<Pen>& all_pens() {
    static const std::vector<Pen> pens = [] {
        std::vector<Pen> found;
        for (const auto& [pen, look] : looks()) {
            found.push_back(pen);
        }
        return found;
    }();
    return pens;
}

void Sheet::add_line(Pen pen, const Vector2d& from, const Vector2d& to) {
    paths.push_back({pen, {{from, 0}, {to, 0}}, false});
}

void Sheet::add(const Sheet& other, const Vector2d& by) {
    for (Path path : other.paths) {
        for (Vertex& vertex : path.vertices) {
            vertex.at += by;
        }
        paths.push_back(std::move(path));
    }
    for (Circle circle : other.circles) {
        circle.centre += by;
        circles.push_back(circle);
    }
    for (Words line : other.words) {
        line.at += by;
        words.push_back(std::move(line));
    }
}

Extent Sheet::extent() const {
    constexpr double fine = 0.05; // mm
    Reach reach;
    for (const Path& path : paths) {
        for (const Vector2d& point : flattened(path, fine)) {
            reach.take(point);
        }
    }
    for (const Circle& circle : circles) {
        reach.take(circle.centre, circle.radius);
    }
    for (const Words& line : words) {
        take_words(reach, line);
    }
    return reach.found();
}

double bulge_radius(const Vector2d& from, const Vector2d& to, double bulge) {
    return 0.25 * (to - from).norm() * (std::abs(bulge) + 1 / std::abs(bulge));
}

std::vector<Vector2d> flattened(const Path& path, double within) {
    std::vector<Vector2d> points;
    const std::size_t n = path.vertices.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Vertex& begin = path.vertices[i];
        points.push_back(begin.at);
        if (begin.bulge == 0 || (i + 1 == n && !path.is_closed)) {
            continue;
        }
        const Vector2d end = path.vertices[(i + 1) % n].at;
        const double turn = 4 * std::atan(begin.bulge);
        const double radius = bulge_radius(begin.at, end, begin.bulge);
        // A chord over an angle a misses its arc by radius * a^2 / 8.
        const double step = std::sqrt(8 * std::min(within, radius) / radius);
        const int n_chords = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / step)));
        const Vector2d chord = end - begin.at;
        const Vector2d left(-chord.y(), chord.x());
        const Vector2d centre = begin.at + 0.5 * chord + 0.5 / std::tan(0.5 * turn) * left;
        for (int k = 1; k < n_chords; ++k) {
            points.emplace_back(centre + turned(begin.at - centre, turn * k / n_chords));
        }
    }
    if (path.is_closed && n > 0) {
        points.push_back(path.vertices.front().at);
    }
    return points;
}

Sheet stacked(const std::vector<Sheet>& sheets, double gap) {
    Sheet all;
    for (const Sheet& sheet : sheets) {
        const bool is_first = all.paths.empty() && all.words.empty();
        const Extent own = sheet.extent();
        Vector2d by = Vector2d::Zero();
        if (!is_first) {
            const Extent above = all.extent();
            by = Vector2d(above.low.x() - own.low.x(), above.low.y() - gap - own.high.y());
        }
        all.add(sheet, by);
    }
    return all;
}

} // namespace flangewright::paper
