#include "io/record_pdf/record_pdf.hpp"

#include "io/record_pdf/pdf_paper.hpp"
#include "io/sheet_page/cautions_part.hpp"

namespace flangewright::record_pdf {

namespace {

void add_part(PdfPaper& paper, const case_file::LogEntry& log) {
    const std::vector<TableColumn> columns{{"", 1}, {"", 1.5}, {"", 1}, {"", 1.5}};
    paper.heading("The part");
    paper.table(
        columns,
        {{"Drawing, issue", log.drawing, "Part", log.part},
         {"Material lot", log.lot, "Certificate", log.certificate},
         {"Formed by, date", "", "Checked by, date", ""}}
    );
}

void add_figures(PdfPaper& paper, const Record& record) {
    const std::vector<TableColumn> columns{
        {"step", 1.1}, {"figure", 2.4}, {"predicted", 1.3}, {"measured", 1.3}, {"difference", 1.2}};
    std::vector<std::vector<std::string>> rows;
    for (const sheet_page::MeasuredRow& each : record.rows) {
        rows.push_back({each.step, each.what, each.predicted, each.measured, each.difference});
    }
    paper.heading("Predicted and measured");
    paper.table(columns, rows);
    for (const std::string& note : record.notes) {
        paper.paragraph(note, {8.5, false, 3});
    }
}

} // namespace

std::string pdf_of(const Record& record) {
    PdfPaper paper(record.title, record.made_by + "  |  not approved data");
    paper.paragraph(record.title, {16, true, 2});
    paper.paragraph(record.made_by, {9, false, 6});
    paper.paragraph(sheet_page::caution_words(), {9.5, true, 8});
    paper.paragraph(record.verdict, {14, true, 2});
    paper.paragraph(record.because);
    add_part(paper, record.log);
    add_figures(paper, record);
    paper.heading("Cautions");
    for (const char* caution : sheet_page::cautions()) {
        paper.paragraph(std::string("- ") + caution, {8.5, false, 2});
    }
    for (const sheet_page::PagePicture& picture : record.pictures) {
        paper.picture(picture.png);
    }
    return paper.finish();
}

} // namespace flangewright::record_pdf
