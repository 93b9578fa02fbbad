#include "io/sheet_page/page_style.hpp"

namespace flangewright::sheet_page {

namespace {

// The paper's size is left to the printer: margins fit both A4 and Letter.
constexpr std::string_view style = R"(
@page { margin: 12mm 15mm 12mm 15mm; }
* { box-sizing: border-box; }
html { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
body { margin: 0 auto; max-width: 190mm; padding: 10mm 6mm; background: #fff; color: #1c1c1c;
  font: 10pt/1.36 "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", sans-serif; }
header { border-bottom: 2.5pt solid #1c1c1c; padding-bottom: 3mm; }
header p { margin: 0; color: #444; }
h1 { font-size: 19pt; line-height: 1.15; margin: 0 0 1mm; overflow-wrap: anywhere; }
h2 { font-size: 12.5pt; margin: 5mm 0 1mm; break-after: avoid; }
p { margin: 0 0 2mm; orphans: 3; widows: 3; }
.caution-line { margin-top: 2mm; font-weight: bold; color: #1c1c1c; }
.verdict { border: 2pt solid #1c1c1c; padding: 3mm 5mm 2.5mm; margin-top: 4mm; break-inside: avoid; }
.verdict h2 { margin: 0 0 1mm; font-size: 10.5pt; font-weight: normal; color: #444; }
.verdict .word { font-size: 24pt; font-weight: bold; line-height: 1.1; margin: 0 0 1.5mm; }
.verdict .grade { margin: 0; color: #333; }
.stopped { border-left: 4pt solid #1c1c1c; padding: 2mm 4mm; margin-top: 5mm; font-weight: bold;
  break-inside: avoid; }
table { width: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; padding: 0.75mm 3mm 0.75mm 0;
  border-bottom: 0.5pt solid #c4c4c4; overflow-wrap: break-word; }
thead th { border-bottom: 1pt solid #1c1c1c; font-size: 9pt; color: #444; vertical-align: bottom; }
tbody th { font-weight: normal; }
.numbers { table-layout: fixed; }
.numbers thead th { width: 19%; }
.numbers thead th:first-child { width: 43%; }
.limits tbody tr:not(.source) > * { border-bottom: none; padding-bottom: 0; }
.source td { font-size: 9pt; color: #444; }
small { font-size: 9pt; color: #444; }
.case { table-layout: fixed; }
.case th { width: 43%; color: #444; }
.cautions { font-size: 9.5pt; }
section.limits { break-inside: avoid; }
.note { font-size: 9pt; color: #444; margin-top: 2mm; }
ul { margin: 0; padding-left: 5mm; }
li { margin-bottom: 0.8mm; break-inside: avoid; }
figure { margin: 0 0 4mm; break-inside: avoid; }
figure img { width: 100%; display: block; border: 0.5pt solid #c4c4c4; }
.pictures { break-before: page; }
.pictures h2 { margin: 0 0 2mm; }
.log { break-inside: avoid; }
.log table { table-layout: fixed; }
.log table td { height: 10mm; border-bottom: 0.5pt solid #1c1c1c; width: 29%; }
.log table th { width: 21%; padding-left: 3mm; vertical-align: bottom; border-bottom: none; }
.lay { display: flex; gap: 4mm; align-items: center; margin-top: 2mm; font-size: 9pt; }
svg.lay { width: 46mm; flex: none; margin: 0; }
.lay p { margin: 0; }
.pen { display: inline-block; width: 30mm; border-bottom: 0.5pt solid #1c1c1c; }
.measured { break-inside: auto; }
.measured table { table-layout: fixed; }
.measured th:first-child { width: 17%; }
.measured th:nth-child(2) { width: 33%; }
.measured td { height: 7mm; }
.part-view .stage { display: flex; gap: 3mm; align-items: flex-start; }
#part-view-canvas { flex: 1 1 auto; min-width: 0; height: 90mm; border: 0.5pt solid #c4c4c4;
  touch-action: none; }
#part-view-legend { flex: none; }
.part-view .controls { margin: 1mm 0; }
.part-view label { margin-right: 3mm; }
.part-view input[type=range] { width: 60mm; vertical-align: middle; }
.readout { min-height: 2.8em; }
@media print { .part-view { display: none; } }
footer { margin-top: 7mm; border-top: 1pt solid #1c1c1c; padding-top: 2mm; font-size: 9pt;
  color: #444; break-inside: avoid; }
@media print { body { max-width: none; padding: 0; } }
@media screen { html { background: #eee; } body { margin: 6mm auto; box-shadow: 0 0 3mm #bbb;
  padding: 14mm 15mm; } }
/* A phone: each row's figures stand below its name, in three columns as the head. */
@media screen and (max-width: 600px) {
body { margin: 0; padding: 5mm 4mm; box-shadow: none; }
.verdict .word { font-size: 19pt; }
.numbers, .numbers thead, .numbers tbody { display: block; }
.numbers tr { display: grid; grid-template-columns: repeat(3, 1fr);
  border-bottom: 0.5pt solid #c4c4c4; padding: 1mm 0; }
.numbers thead { position: sticky; top: 0; background: #fff; }
.numbers thead tr { border-bottom: 1pt solid #1c1c1c; }
.numbers tr > * { border-bottom: none; padding: 0 2mm 0 0; }
.numbers thead th { width: auto; }
.numbers thead th:first-child { display: none; }
.numbers tbody th, .numbers .source td { grid-column: 1 / -1; font-weight: bold; }
.numbers .source td { font-weight: normal; }
.numbers.limits tr:not(.source) { border-bottom: none; }
.log table, .log tbody { display: block; }
.part-view .stage { display: block; }
.log tr { display: grid; grid-template-columns: 2fr 3fr; }
.log table th, .log table td { width: auto; }
}
)";

} // namespace

std::string_view page_style() {
    return style;
}

} // namespace flangewright::sheet_page
