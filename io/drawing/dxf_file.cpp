#include "io/drawing/dxf_file.hpp"

#include "io/drawing/dxf_extract.hpp"
#include "io/drawing/spline.hpp"
#include "mesh/outline/curve_through.hpp"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <fstream>
#include <numbers>
#include <sstream>
#include <system_error>
#include <utility>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;

constexpr double degree = std::numbers::pi / 180;
constexpr double farthest = 1e7; // a coordinate beyond is no part
constexpr double smallest = 1e-6; // of a length; what is smaller is a leftover

std::string lower_case(std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char c) {
        return static_cast<char>(std::tolower(c));
    });
    return text;
}

bool is_place(const Vector2d& point) {
    return point.allFinite() && point.cwiseAbs().maxCoeff() < farthest;
}

/// A smooth curve through points, without those that nearly coincide.
std::optional<Stroke> curve_stroke(const std::vector<Vector2d>& points) {
    constexpr double least_share = 1e-4; // of the whole extent
    Vector2d low = points.front();
    Vector2d high = points.front();
    for (const Vector2d& point : points) {
        low = low.cwiseMin(point);
        high = high.cwiseMax(point);
    }
    const double least = least_share * (high - low).norm();
    std::vector<Vector2d> apart{points.front()};
    for (const Vector2d& point : points) {
        if ((point - apart.back()).norm() > least) {
            apart.push_back(point);
        }
    }
    if (apart.size() > 1) {
        apart.back() = points.back();
    }
    if (apart.size() < 2 || outline::find_kink(apart)) {
        return std::nullopt;
    }
    const outline::CurveThrough curve = outline::curve_through(apart);
    return Stroke{
        "curve",
        apart.front(),
        apart.back(),
        curve.begin_direction,
        curve.end_direction,
        curve.pieces};
}

/// Vertices of a polyline; `bulge` belongs to the part that begins there.
struct Vertex {
    Vector2d point;
    double bulge = 0;
};

struct Polyline {
    std::vector<Vertex> vertices;
    bool is_closed = false;
};

std::vector<Stroke> strokes_of(const Polyline& polyline) {
    std::vector<Vector2d> points;
    bool has_arcs = false;
    for (const Vertex& vertex : polyline.vertices) {
        points.push_back(vertex.point);
        has_arcs = has_arcs || vertex.bulge != 0;
    }
    constexpr std::size_t fewest_of_a_curve = 5;
    if (!has_arcs && !polyline.is_closed && points.size() >= fewest_of_a_curve) {
        if (const std::optional<Stroke> curve = curve_stroke(points)) {
            return {*curve};
        }
    }
    std::vector<Stroke> strokes;
    const std::size_t n = points.size();
    for (std::size_t i = 0; i + (polyline.is_closed ? 0 : 1) < n; ++i) {
        const Vector2d& next = points[(i + 1) % n];
        if ((next - points[i]).norm() > smallest) {
            strokes.push_back(bulge_stroke(points[i], next, polyline.vertices[i].bulge));
        }
    }
    return strokes;
}

/// Takes what the library finds. Polylines and splines come in parts and are closed by endEntity().
class Collector : public DL_CreationAdapter {
public:
    Collector(Drawing& drawing, const std::string& layer)
        : drawing_(&drawing), layer_(lower_case(layer)) {}

    using DL_CreationAdapter::setVariableInt;
    void setVariableInt(const std::string& key, int value, int /*code*/) override {
        if (key == "$INSUNITS") {
            unit_code = value;
        }
    }
    void addLine(const DL_LineData& data) override {
        const Vector2d begin(data.x1, data.y1);
        const Vector2d end(data.x2, data.y2);
        if (is_wanted() && is_place(begin) && is_place(end) && (end - begin).norm() > smallest) {
            add(line_stroke(begin, end), handle());
        }
    }
    void addArc(const DL_ArcData& data) override {
        double sweep = std::fmod(data.angle2 - data.angle1, 360);
        sweep += sweep <= 0 ? 360 : 0;
        add_round({data.cx, data.cy}, data.radius, data.angle1, sweep);
    }
    void addCircle(const DL_CircleData& data) override {
        add_round({data.cx, data.cy}, data.radius, 0, 360);
    }
    void addPolyline(const DL_PolylineData& data) override {
        finish();
        if (is_wanted()) {
            polyline_ = Polyline{{}, (data.flags & 1) != 0};
            handle_ = handle();
            is_mirrored_ = is_seen_from_behind();
        }
    }
    void addVertex(const DL_VertexData& data) override {
        if (polyline_ && is_place({data.x, data.y}) && std::isfinite(data.bulge)) {
            polyline_->vertices.push_back({{data.x, data.y}, data.bulge});
        }
    }
    void addSpline(const DL_SplineData& data) override {
        finish();
        if (is_wanted()) {
            spline_ = Spline{static_cast<int>(std::min(data.degree, 100U)), {}, {}};
            handle_ = handle();
            fit_points_.clear();
        }
    }
    void addKnot(const DL_KnotData& data) override {
        if (spline_) {
            spline_->knots.push_back(data.k);
        }
    }
    void addControlPoint(const DL_ControlPointData& data) override {
        if (spline_ && is_place({data.x, data.y})) {
            spline_->controls.emplace_back(data.x, data.y, data.w);
        }
    }
    void addFitPoint(const DL_FitPointData& data) override {
        if (spline_ && is_place({data.x, data.y})) {
            fit_points_.emplace_back(data.x, data.y);
        }
    }
    void addEllipse(const DL_EllipseData& /*data*/) override {
        if (is_wanted()) {
            count_not_understood("ellipse", handle());
        }
    }
    void addInsert(const DL_InsertData& /*data*/) override {
        if (is_wanted()) {
            count_not_understood("block", handle());
        }
    }
    void addPoint(const DL_PointData& /*data*/) override {
        drawing_->n_points += is_wanted() ? 1 : 0;
    }
    void endEntity() override { finish(); }
    void endSequence() override { finish(); }

    void finish() {
        if (polyline_ && !polyline_->vertices.empty()) {
            for (const Stroke& stroke : strokes_of(*polyline_)) {
                add(is_mirrored_ ? mirrored(stroke) : stroke, handle_);
            }
            polyline_.reset();
        }
        if (spline_ && (!spline_->controls.empty() || !fit_points_.empty())) {
            add_spline();
            spline_.reset();
        }
    }

    int unit_code = 0;

private:
    bool is_wanted() {
        const std::string layer = getAttributes().getLayer();
        if (std::ranges::find(drawing_->layers, layer) == drawing_->layers.end()) {
            drawing_->layers.push_back(layer);
        }
        return lower_case(layer) == layer_;
    }
    std::string handle() {
        const int number = getAttributes().getHandle();
        return number > 0 ? fmt::format("{:X}", number) : "";
    }
    void add(Stroke stroke, const std::string& handle) {
        stroke.handle = handle;
        drawing_->strokes.push_back(std::move(stroke));
    }
    void count_not_understood(const std::string& what, const std::string& handle) {
        ++drawing_->n_not_understood;
        if (drawing_->first_not_understood.empty()) {
            drawing_->first_not_understood = handle.empty() ? what : what + ' ' + handle;
        }
    }
    bool is_seen_from_behind() {
        const DL_Extrusion* normal = getExtrusion();
        return normal != nullptr && normal->getDirection()[2] < 0;
    }
    void add_round(const Vector2d& centre, double radius, double begin, double sweep) {
        if (!is_wanted() || !is_place(centre) || !(radius > smallest && radius < farthest)
            || !std::isfinite(begin) || !std::isfinite(sweep)) {
            return;
        }
        Stroke stroke = arc_stroke(centre, radius, begin * degree, sweep * degree);
        stroke.name = sweep < 360 ? stroke.name : "circle";
        add(is_seen_from_behind() ? mirrored(stroke) : stroke, handle());
    }
    void add_spline() {
        std::vector<Vector2d> points = fit_points_;
        if (is_sound(*spline_)) {
            points = points_on(*spline_);
        }
        const bool are_places = std::ranges::all_of(points, is_place);
        if (const auto stroke =
                points.size() > 1 && are_places ? curve_stroke(points) : std::nullopt) {
            add(*stroke, handle_);
        } else {
            count_not_understood("spline", handle_);
        }
    }

    Drawing* drawing_;
    std::string layer_;
    std::string handle_; // of the polyline or spline that is being read
    bool is_mirrored_ = false;
    std::optional<Polyline> polyline_;
    std::optional<Spline> spline_;
    std::vector<Vector2d> fit_points_;
};

/// Of the drawing's header; from memory. Empty: no unit.
std::optional<double> mm_per_unit_of(int code) {
    switch (code) {
    case 1:
        return 25.4;
    case 2:
        return 304.8;
    case 4:
        return 1;
    case 5:
        return 10;
    case 6:
        return 1000;
    default:
        return std::nullopt;
    }
}

DrawingProblem no_drawing(const std::string& found) {
    return {found, "a drawing saved as DXF (text)", "save the drawing again as text DXF"};
}

} // namespace

Result<Drawing, DrawingProblem> read_drawing(std::string_view text, const std::string& layer) {
    const std::optional<std::string> extract = extract_of(text);
    if (!extract) {
        return tl::unexpected(no_drawing("a file that is no sound DXF text"));
    }
    Drawing drawing;
    Collector collector(drawing, layer);
    try {
        DL_Dxf reader;
        std::istringstream stream(*extract);
        reader.in(stream, &collector);
        collector.finish();
    } catch (...) { // whatever the library throws tells a user nothing
        return tl::unexpected(no_drawing("a DXF file that can't be understood"));
    }
    drawing.mm_per_unit = mm_per_unit_of(collector.unit_code);
    return drawing;
}

Result<Drawing, DrawingProblem>
read_drawing_file(const std::filesystem::path& path, const std::string& layer) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(path, error)) {
        return tl::unexpected(DrawingProblem{
            "no file " + path.string(),
            "a drawing beside the case file, or a whole path",
            "check the path and the spelling"});
    }
    if (std::filesystem::file_size(path, error) > largest_drawing || error) {
        return tl::unexpected(DrawingProblem{
            "a file of more than 20 MB",
            "a drawing of one part",
            "save only the layer with the bend line"});
    }
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream) {
        return tl::unexpected(no_drawing("a file that can't be read"));
    }
    return read_drawing(text.str(), layer);
}

} // namespace flangewright::drawing
