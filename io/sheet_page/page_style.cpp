#include "io/sheet_page/page_style.hpp"

namespace flangewright::sheet_page {

std::string_view page_style() {
    // The paper's size is left to the printer: margins fit both A4 and Letter.
    return R"(
@page { margin: 14mm 15mm 16mm 15mm; }
* { box-sizing: border-box; }
html { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { margin: 0 auto; max-width: 190mm; padding: 10mm 6mm; background: #fff; color: #1c1c1c;
  font: 10.5pt/1.42 "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", sans-serif; }
header { border-bottom: 2.5pt solid #1c1c1c; padding-bottom: 3mm; }
header p { margin: 0; color: #444; }
h1 { font-size: 19pt; line-height: 1.15; margin: 0 0 1mm; overflow-wrap: anywhere; }
h2 { font-size: 12.5pt; margin: 7mm 0 2mm; break-after: avoid; }
p { margin: 0 0 2mm; orphans: 3; widows: 3; }
.caution-line { margin-top: 2mm; font-weight: bold; color: #1c1c1c; }
.verdict { border: 2pt solid #1c1c1c; padding: 4mm 5mm 3mm; margin-top: 5mm; break-inside: avoid; }
.verdict h2 { margin: 0 0 1mm; font-size: 10.5pt; font-weight: normal; color: #444; }
.verdict .word { font-size: 25pt; font-weight: bold; line-height: 1.1; margin: 0 0 2mm; }
.verdict .grade { margin: 0; color: #333; }
.stopped { border-left: 4pt solid #1c1c1c; padding: 2mm 4mm; margin-top: 5mm; font-weight: bold;
  break-inside: avoid; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; padding: 1.1mm 3mm 1.1mm 0;
  border-bottom: 0.5pt solid #c4c4c4; overflow-wrap: anywhere; }
thead th { border-bottom: 1pt solid #1c1c1c; font-size: 9pt; color: #444; vertical-align: bottom; }
tbody th { font-weight: normal; }
.numbers td { white-space: nowrap; }
.case th { width: 38%; color: #444; }
.case, .limits { font-size: 10pt; }
.cautions { font-size: 9.5pt; }
section.limits { break-inside: avoid; }
.limits td:nth-child(2), .limits td:nth-child(3), .limits td:nth-child(4) { white-space: nowrap; }
.note { font-size: 9pt; color: #444; margin-top: 2mm; }
ul { margin: 0; padding-left: 5mm; }
li { margin-bottom: 1.2mm; break-inside: avoid; }
figure { margin: 0 0 4mm; break-inside: avoid; }
figure img { width: 100%; display: block; border: 0.5pt solid #c4c4c4; }
.pictures { break-before: page; }
.pictures h2 { margin: 0 0 2mm; }
.log { break-inside: avoid; }
.log table td { height: 9mm; border-bottom: 0.5pt solid #1c1c1c; width: 30%; }
.log table th { width: 20%; vertical-align: bottom; border-bottom: none; }
footer { margin-top: 7mm; border-top: 1pt solid #1c1c1c; padding-top: 2mm; font-size: 9pt;
  color: #444; break-inside: avoid; }
@media print { body { max-width: none; padding: 0; } }
@media screen { html { background: #eee; } body { margin: 6mm auto; box-shadow: 0 0 3mm #bbb;
  padding: 14mm 15mm; } }
)";
}

} // namespace flangewright::sheet_page
