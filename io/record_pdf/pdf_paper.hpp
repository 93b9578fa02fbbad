// Pages of a PDF file, filled from the top down: text that wraps, tables, pictures.
#pragma once

#include <memory>
#include <string>
#include <vector>

namespace flangewright::record_pdf {

/// One column of a table: its share of the width.
struct TableColumn {
    std::string head;
    double share = 1;
};

/// How a paragraph looks. Sizes in points (1/72 in).
struct TextLook {
    double size = 9.5;
    bool is_bold = false;
    double space_after = 4;
};

/// A4, with margins wide enough for Letter. What doesn't fit goes on the next page; rows and
/// pictures are never cut in two.
class PdfPaper {
public:
    /// `foot` stands at the bottom of each page with its number.
    PdfPaper(const std::string& title, std::string foot);
    ~PdfPaper();
    PdfPaper(const PdfPaper&) = delete;
    PdfPaper& operator=(const PdfPaper&) = delete;

    void paragraph(const std::string& text, const TextLook& look = {});
    void heading(const std::string& text);
    void table(
        const std::vector<TableColumn>& columns, const std::vector<std::vector<std::string>>& rows
    );
    /// A PNG file's bytes, as wide as the page; a damaged one is left out.
    void picture(const std::string& png);

    /// Ends the file. Units: none. Source: PDF 1.5 (ISO 32000-1), by the library. Fails: empty when
    /// the library could not make it.
    [[nodiscard]] std::string finish();

private:
    class Canvas;
    std::unique_ptr<Canvas> canvas_;
};

} // namespace flangewright::record_pdf
