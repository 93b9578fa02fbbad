#include "io/paper/dxf_sheet.hpp"

#include "io/units/angle.hpp"

#include <dxflib/dl_dxf.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

namespace flangewright::paper {

namespace {

/// The library's writer with a string in the place of its file, so that a full disk is met where
/// files are written whole.
class StringWriter : public DL_WriterA {
public:
    StringWriter() : DL_WriterA("") {}

    void dxfReal(int code, double value) const override { add(code, fmt::format("{:.9f}", value)); }
    void dxfInt(int code, int value) const override { add(code, fmt::format("{}", value)); }
    void dxfHex(int code, int value) const override { add(code, fmt::format("{:X}", value)); }
    void dxfString(int code, const char* value) const override { add(code, value); }
    void dxfString(int code, const std::string& value) const override { add(code, value); }

    [[nodiscard]] const std::string& text() const { return text_; }

private:
    void add(int code, const std::string& value) const {
        text_ += fmt::format("{:>3}\n{}\n", code, value);
    }

    mutable std::string text_; // the library's writers write through const
};

/// The letter that begins there with a byte for `n_more` others.
std::uint32_t letter_at(const std::string& utf8, std::size_t begin, std::size_t n_more) {
    std::uint32_t letter = static_cast<unsigned char>(utf8[begin]) & (0x3FU >> n_more);
    for (std::size_t k = 1; k <= n_more; ++k) {
        letter = (letter << 6U) | (static_cast<unsigned char>(utf8[begin + k]) & 0x3FU);
    }
    return letter;
}

/// Letters beyond the plain ones as the format escapes them: \U+00E4. Broken bytes become "?".
std::string escaped(const std::string& utf8) {
    std::string text;
    for (std::size_t i = 0; i < utf8.size();) {
        const auto lead = static_cast<unsigned char>(utf8[i]);
        const std::size_t n_more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
        if (lead < 0x80) {
            text += lead < 0x20 || lead == 0x7F ? ' ' : utf8[i];
        } else if (n_more == 0 || n_more == 3 || i + n_more >= utf8.size()) {
            text += '?';
        } else {
            text += fmt::format("\\U+{:04X}", letter_at(utf8, i, n_more));
        }
        i += 1 + std::min(n_more, utf8.size() - i - 1);
    }
    return text;
}

bool is_used(const Sheet& sheet, Pen pen) {
    const auto has_pen = [pen](const auto& drawn) { return drawn.pen == pen; };
    return std::ranges::any_of(sheet.paths, has_pen) || std::ranges::any_of(sheet.circles, has_pen)
        || (pen == Pen::text && !sheet.words.empty());
}

class Writer {
public:
    explicit Writer(units::LengthUnit unit)
        : scale_(unit == units::LengthUnit::inch ? 1 / units::mm_per_inch : 1),
          is_inch_(unit == units::LengthUnit::inch) {}

    std::string write(const Sheet& sheet) {
        write_header();
        write_tables(sheet);
        write_blocks();
        out_.sectionEntities();
        for (const Path& path : sheet.paths) {
            write_path(path);
        }
        for (const Circle& circle : sheet.circles) {
            const Eigen::Vector2d at = scale_ * circle.centre;
            dxf_.writeCircle(
                out_,
                DL_CircleData(at.x(), at.y(), 0, scale_ * circle.radius),
                attributes_of(circle.pen)
            );
        }
        for (const Words& words : sheet.words) {
            write_words(words);
        }
        out_.sectionEnd();
        dxf_.writeObjects(out_);
        dxf_.writeObjectsEnd(out_);
        out_.dxfEOF();
        return out_.text();
    }

private:
    static DL_Attributes attributes_of(Pen pen) {
        constexpr int by_layer = 256;
        return {look_of(pen).layer, by_layer, -1, "BYLAYER", 1.0};
    }
    void write_header() {
        constexpr int inches = 1; // from memory, as in the reader
        constexpr int millimetres = 4;
        dxf_.writeHeader(out_);
        out_.dxfString(9, "$INSUNITS");
        out_.dxfInt(70, is_inch_ ? inches : millimetres);
        out_.dxfString(9, "$MEASUREMENT");
        out_.dxfInt(70, is_inch_ ? 0 : 1);
        out_.sectionEnd();
    }
    void write_tables(const Sheet& sheet) {
        out_.sectionTables();
        dxf_.writeVPort(out_);
        out_.tableLinetypes(3);
        for (const char* name : {"BYBLOCK", "BYLAYER", "CONTINUOUS"}) {
            dxf_.writeLinetype(out_, DL_LinetypeData(name, name, 0, 0, 0.0));
        }
        out_.tableEnd();
        write_layers(sheet);
        out_.tableStyle(1);
        dxf_.writeStyle(out_, DL_StyleData("Standard", 0, 0.0, 1.0, 0.0, 0, 2.5, "txt", ""));
        out_.tableEnd();
        dxf_.writeView(out_);
        dxf_.writeUcs(out_);
        out_.tableAppid(1);
        dxf_.writeAppid(out_, "ACAD");
        out_.tableEnd();
        dxf_.writeDimStyle(out_, 1, 1, 1, 1, 1);
        dxf_.writeBlockRecord(out_);
        out_.tableEnd();
        out_.sectionEnd();
    }
    void write_layers(const Sheet& sheet) {
        std::vector<Pen> used;
        std::ranges::copy_if(all_pens(), std::back_inserter(used), [&sheet](Pen pen) {
            return is_used(sheet, pen);
        });
        constexpr int colour = 7;
        out_.tableLayers(static_cast<int>(used.size()) + 1);
        dxf_.writeLayer(
            out_, DL_LayerData("0", 0), DL_Attributes("", colour, -1, "CONTINUOUS", 1.0)
        );
        for (const Pen pen : used) {
            const PenLook& look = look_of(pen);
            dxf_.writeLayer(
                out_,
                DL_LayerData(look.layer, 0),
                DL_Attributes("", look.colour, -1, "CONTINUOUS", 1.0)
            );
        }
        out_.tableEnd();
    }
    void write_blocks() {
        out_.sectionBlocks();
        for (const char* name : {"*Model_Space", "*Paper_Space", "*Paper_Space0"}) {
            dxf_.writeBlock(out_, DL_BlockData(name, 0, 0.0, 0.0, 0.0));
            dxf_.writeEndBlock(out_, name);
        }
        out_.sectionEnd();
    }
    void write_path(const Path& path) {
        constexpr int closed = 1;
        const auto n = static_cast<int>(path.vertices.size());
        dxf_.writePolyline(
            out_, DL_PolylineData(n, 0, 0, path.is_closed ? closed : 0), attributes_of(path.pen)
        );
        for (const Vertex& vertex : path.vertices) {
            const Eigen::Vector2d at = scale_ * vertex.at;
            dxf_.writeVertex(out_, DL_VertexData(at.x(), at.y(), 0, vertex.bulge));
        }
        dxf_.writePolylineEnd(out_);
    }
    void write_words(const Words& words) {
        constexpr int centred = 1;
        const Eigen::Vector2d at = scale_ * words.at;
        dxf_.writeText(
            out_,
            DL_TextData(
                at.x(),
                at.y(),
                0,
                at.x(),
                at.y(),
                0,
                0.75 * scale_ * words.height, // of a capital letter
                1.0,
                0,
                words.is_centred ? centred : 0,
                0,
                escaped(words.text),
                "Standard",
                words.turn
            ),
            attributes_of(Pen::text)
        );
    }

    double scale_;
    bool is_inch_;
    DL_Dxf dxf_;
    StringWriter out_;
};

} // namespace

std::string dxf_of(const Sheet& sheet, units::LengthUnit unit) {
    return Writer(unit).write(sheet);
}

} // namespace flangewright::paper
