#include "io/paper/pdf_pages.hpp"

#include "io/paper/pdf_stream.hpp"
#include "io/units/length.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

namespace flangewright::paper {

namespace {

using Eigen::Vector2d;

constexpr double points_per_mm = 72 / units::mm_per_inch;
constexpr double chord_error = 0.005; // mm

/// One page; places are mm from its upper left corner, y downward.
class Page {
public:
    explicit Page(cairo_t* pen) : pen_(pen) {}

    void line(const std::vector<Vector2d>& points, double width, const std::vector<double>& dashes)
        const {
        cairo_set_line_width(pen_, width);
        cairo_set_dash(pen_, dashes.data(), static_cast<int>(dashes.size()), 0);
        cairo_new_path(pen_);
        for (const Vector2d& point : points) {
            cairo_line_to(pen_, point.x(), point.y());
        }
        cairo_stroke(pen_);
    }
    void circle(const Vector2d& centre, double radius, double width) const {
        constexpr double whole = 6.283185307179586;
        cairo_set_line_width(pen_, width);
        cairo_set_dash(pen_, nullptr, 0, 0);
        cairo_new_path(pen_);
        cairo_arc(pen_, centre.x(), centre.y(), radius, 0, whole);
        cairo_stroke(pen_);
    }
    void words(const Vector2d& at, const Words& words) const {
        const std::string text = sound_text(words.text);
        cairo_save(pen_);
        cairo_translate(pen_, at.x(), at.y());
        cairo_rotate(pen_, -words.turn);
        cairo_set_font_size(pen_, words.height);
        cairo_text_extents_t extents;
        cairo_text_extents(pen_, text.c_str(), &extents);
        cairo_move_to(pen_, words.is_centred ? -0.5 * extents.x_advance : 0, 0);
        cairo_show_text(pen_, text.c_str());
        cairo_restore(pen_);
    }
    void note(double x, double y, const std::string& text, double height = 2.6) const {
        words({x, y}, {{}, text, height, 0, false});
    }
    void clip(const Vector2d& corner, const Vector2d& size) const {
        cairo_save(pen_);
        cairo_rectangle(pen_, corner.x(), corner.y(), size.x(), size.y());
        cairo_clip(pen_);
    }
    void unclip() const { cairo_restore(pen_); }

private:
    cairo_t* pen_;
};

/// The part of the drawing that a page shows.
class Shown {
public:
    Shown(const Page& page, const Extent& window) : page_(page), window_(window) {}

    void draw(const Sheet& sheet, const std::vector<Register>& registers) const {
        const Vector2d corner(page_margin, page_margin);
        page_.clip(corner, window_.size());
        for (const Path& path : sheet.paths) {
            std::vector<Vector2d> points;
            for (const Vector2d& point : flattened(path, chord_error)) {
                points.push_back(at(point));
            }
            const PenLook& look = look_of(path.pen);
            page_.line(points, look.width, look.dashes);
        }
        for (const Circle& circle : sheet.circles) {
            page_.circle(at(circle.centre), circle.radius, look_of(circle.pen).width);
        }
        for (const Words& words : sheet.words) {
            page_.words(at(words.at), words);
        }
        for (const Register& cross : registers) {
            draw_register(cross);
        }
        page_.unclip();
        const Vector2d end = corner + window_.size();
        page_.line(
            {corner, {end.x(), corner.y()}, end, {corner.x(), end.y()}, corner}, 0.1, {0.5, 1.5}
        );
    }

private:
    [[nodiscard]] Vector2d at(const Vector2d& point) const {
        return {
            page_margin + point.x() - window_.low.x(), page_margin + window_.high.y() - point.y()};
    }
    void draw_register(const Register& cross) const {
        constexpr double arm = 4.5;
        const Vector2d centre = at(cross.at);
        page_.line({centre - Vector2d(arm, 0), centre + Vector2d(arm, 0)}, 0.1, {});
        page_.line({centre - Vector2d(0, arm), centre + Vector2d(0, arm)}, 0.1, {});
        page_.circle(centre, 2.5, 0.1);
        page_.note(centre.x() + 1.2, centre.y() - 2.8, std::to_string(cross.number), 2.2);
    }

    const Page& page_;
    Extent window_;
};

void draw_bar(const Page& page, double y, double length, const char* name) {
    const double end = page_margin + length;
    page.line({{page_margin, y}, {end, y}}, 0.2, {});
    for (const double x : {page_margin, end}) {
        page.line({{x, y - 2}, {x, y + 2}}, 0.2, {});
    }
    page.note(end + 2, y + 1, name);
}

void draw_foot(
    const Page& page, const Tiling& tiling, const std::string& head, const PageWords& words
) {
    const double top = tiling.page_height - page_margin - page_foot;
    page.note(page_margin, top + 4, head, 2.8);
    page.note(page_margin, top + 8, words.caution, 2.4);
    draw_bar(page, top + 13, 100, "100 mm");
    draw_bar(page, top + 20, 4 * units::mm_per_inch, "4 in");
}

/// Beyond so many letters a title is cut off: it shares its line with the place of the page.
std::string brief(const std::string& title) {
    constexpr std::size_t most = 48; // bytes
    if (title.size() <= most) {
        return title;
    }
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(title[end]) & 0xC0U) == 0x80U) {
        --end; // not inside a letter of several bytes
    }
    return title.substr(0, end) + "...";
}

/// The pages as they come.
class Document {
public:
    Document(const PageSize& page, const PageWords& words)
        : words_(words), file_(page.width, page.height, words.title) {}

    /// `number` of the page among `n_pages`.
    void add_page(
        const Sheet& sheet, const Tiling& tiling, const Tile& tile, const std::string& number
    ) {
        cairo_pdf_surface_set_size(
            file_.surface(), tiling.page_width * points_per_mm, tiling.page_height * points_per_mm
        );
        const CairoPen pen = file_.new_pen();
        cairo_scale(pen.get(), points_per_mm, points_per_mm);
        cairo_select_font_face(
            pen.get(), "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL
        );
        const Page drawn(pen.get());
        Shown(drawn, tile.window).draw(sheet, tiling.registers);
        const std::string place = fmt::format(
            "row {} of {}, column {} of {}", tile.row, tiling.n_rows, tile.column, tiling.n_columns
        );
        draw_foot(
            drawn,
            tiling,
            brief(words_.title) + " - " + sheet.name + ", " + place + " - page " + number,
            words_
        );
        file_.end_page(pen.get());
    }

    Result<std::string> finished() {
        if (std::optional<std::string> bytes = file_.finish()) {
            return *std::move(bytes);
        }
        return tl::unexpected(OutsideProblem{
            "drawing the pages of the template",
            file_.trouble(),
            "check that fonts are installed (fontconfig)"});
    }

private:
    const PageWords& words_;
    PdfStream file_;
};

} // namespace

Result<std::string>
pdf_of(const std::vector<Sheet>& sheets, const PageSize& page, const PageWords& words) {
    std::vector<Tiling> tilings;
    std::size_t n_pages = 0;
    for (const Sheet& sheet : sheets) {
        tilings.push_back(tiles_for(sheet.extent(), page));
        n_pages += tilings.back().tiles.size();
    }
    Document document(page, words);
    std::size_t number = 0;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        for (const Tile& tile : tilings[i].tiles) {
            document.add_page(
                sheets[i], tilings[i], tile, fmt::format("{} of {}", ++number, n_pages)
            );
        }
    }
    return document.finished();
}

} // namespace flangewright::paper
