#include "io/record_pdf/pdf_paper.hpp"

#include "io/paper/pdf_stream.hpp"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <sstream>

namespace flangewright::record_pdf {

namespace {

// Points. Letter is 34 wider and 50 lower than A4: the margins leave room for both.
constexpr double page_width = 595;
constexpr double page_height = 842;
constexpr double side = 48;
constexpr double top = 54;
constexpr double bottom = 76;
constexpr double width = page_width - 2 * side;
constexpr double line_height = 1.3; // times the letters' size
constexpr double cell_gap = 6;

/// What is left of a file that is read bit by bit.
struct Rest {
    const std::string& bytes;
    std::size_t place = 0;
};

cairo_status_t take(void* closure, unsigned char* data, unsigned int length) {
    Rest& rest = *static_cast<Rest*>(closure);
    if (rest.bytes.size() - rest.place < length) {
        return CAIRO_STATUS_READ_ERROR;
    }
    std::memcpy(data, rest.bytes.data() + rest.place, length);
    rest.place += length;
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

/// The page that is being filled, and how far.
class PdfPaper::Canvas {
public:
    Canvas(const std::string& title, std::string foot)
        : foot_(std::move(foot)), file_(page_width, page_height, title), pen_(file_.new_pen()) {}

    /// Begins a page when so much does not fit any more.
    void make_room(double height) {
        if (y_ + height > page_height - bottom && y_ > top) {
            end_page();
        }
    }
    void step_down(double height) { y_ += height; }

    void set_font(const TextLook& look) {
        cairo_select_font_face(
            pen_.get(),
            "sans-serif",
            CAIRO_FONT_SLANT_NORMAL,
            look.is_bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL
        );
        cairo_set_font_size(pen_.get(), look.size);
    }

    /// The text in lines no wider than this, broken between words. A longer word stands alone.
    std::vector<std::string> lines_of(const std::string& text, double most) {
        std::vector<std::string> lines{""};
        std::istringstream words(text);
        for (std::string word; words >> word;) {
            std::string& line = lines.back();
            std::string longer = line;
            longer += line.empty() ? "" : " ";
            longer += word;
            if (line.empty() || extent(longer) <= most) {
                line = std::move(longer);
            } else {
                lines.push_back(word);
            }
        }
        return lines;
    }

    void write(const std::string& text, double x, double y) {
        cairo_move_to(pen_.get(), x, y);
        const std::string sound = paper::sound_text(text);
        cairo_show_text(pen_.get(), sound.c_str());
    }

    void rule(double thickness) {
        cairo_set_line_width(pen_.get(), thickness);
        cairo_move_to(pen_.get(), side, y_);
        cairo_line_to(pen_.get(), side + width, y_);
        cairo_stroke(pen_.get());
    }

    /// Cells side by side, as high as the highest.
    void row(const std::vector<TableColumn>& columns, const std::vector<std::string>& cells) {
        double all = 0;
        for (const TableColumn& column : columns) {
            all += column.share;
        }
        std::vector<std::vector<std::string>> lines;
        std::size_t most = 1;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            lines.push_back(lines_of(
                i < cells.size() ? cells[i] : std::string(),
                width * columns[i].share / all - cell_gap
            ));
            most = std::max(most, lines.back().size());
        }
        const double height = line_height * size_ * static_cast<double>(most) + 5;
        make_room(height);
        double x = side;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            for (std::size_t k = 0; k < lines[i].size(); ++k) {
                write(lines[i][k], x, y_ + size_ * (1 + line_height * static_cast<double>(k)));
            }
            x += width * columns[i].share / all;
        }
        step_down(height);
        rule(0.3);
        step_down(2);
    }

    void set_size(const TextLook& look) {
        size_ = look.size;
        set_font(look);
    }
    [[nodiscard]] double size() const { return size_; }
    [[nodiscard]] double y() const { return y_; }

    void picture(const std::string& png) {
        Rest rest{png};
        const paper::CairoSurface image(cairo_image_surface_create_from_png_stream(take, &rest));
        if (cairo_surface_status(image.get()) == CAIRO_STATUS_SUCCESS) {
            const double scale = width / cairo_image_surface_get_width(image.get());
            const double height = scale * cairo_image_surface_get_height(image.get());
            make_room(height);
            cairo_save(pen_.get());
            cairo_translate(pen_.get(), side, y_);
            cairo_scale(pen_.get(), scale, scale);
            cairo_set_source_surface(pen_.get(), image.get(), 0, 0);
            cairo_paint(pen_.get());
            cairo_restore(pen_.get());
            step_down(height + 8);
        }
    }

    std::string finish() {
        end_page();
        return file_.finish().value_or(std::string());
    }

private:
    double extent(const std::string& text) {
        cairo_text_extents_t found;
        const std::string sound = paper::sound_text(text);
        cairo_text_extents(pen_.get(), sound.c_str(), &found);
        return found.x_advance;
    }

    void end_page() {
        cairo_save(pen_.get());
        set_font({7.5, false, 0});
        write(fmt::format("{}  |  page {}", foot_, n_pages_ + 1), side, page_height - bottom + 24);
        cairo_restore(pen_.get());
        file_.end_page(pen_.get());
        ++n_pages_;
        y_ = top;
    }

    std::string foot_;
    paper::PdfStream file_;
    paper::CairoPen pen_;
    double y_ = top;
    double size_ = 9.5;
    int n_pages_ = 0;
};

PdfPaper::PdfPaper(const std::string& title, std::string foot)
    : canvas_(std::make_unique<Canvas>(title, std::move(foot))) {}

PdfPaper::~PdfPaper() = default;

void PdfPaper::paragraph(const std::string& text, const TextLook& look) {
    canvas_->set_size(look);
    for (const std::string& line : canvas_->lines_of(text, width)) {
        canvas_->make_room(line_height * look.size);
        canvas_->set_size(look); // a new page begins with the foot's letters
        canvas_->write(line, side, canvas_->y() + look.size);
        canvas_->step_down(line_height * look.size);
    }
    canvas_->step_down(look.space_after);
}

void PdfPaper::heading(const std::string& text) {
    canvas_->make_room(60); // never alone at the foot of a page
    canvas_->step_down(6);
    paragraph(text, {12, true, 3});
}

void PdfPaper::table(
    const std::vector<TableColumn>& columns, const std::vector<std::vector<std::string>>& rows
) {
    std::vector<std::string> heads;
    heads.reserve(columns.size());
    for (const TableColumn& column : columns) {
        heads.push_back(column.head);
    }
    const bool has_heads =
        std::ranges::any_of(heads, [](const std::string& head) { return !head.empty(); });
    if (has_heads) {
        canvas_->set_size({8.5, true, 0});
        canvas_->row(columns, heads);
    }
    for (const std::vector<std::string>& row : rows) {
        canvas_->set_size({8.5, false, 0});
        canvas_->row(columns, row);
    }
    canvas_->step_down(4);
}

void PdfPaper::picture(const std::string& png) {
    canvas_->picture(png);
}

std::string PdfPaper::finish() {
    return canvas_->finish();
}

} // namespace flangewright::record_pdf
