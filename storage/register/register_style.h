// storage/register/register_style.h -- how the report looks, on a screen and on paper.
//
// Dark on light with contrast of at least 7:1; nothing is told by colour alone. No outside font.
// On a narrow screen each row is a block of lines with the names of its columns.
// On paper: A4 or Letter as the printer has it, column heads on every page, a colony's rows never
// torn apart.
#pragma once

namespace storage {

inline constexpr const char* kRegisterStyle = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 64rem; padding: 1.5rem 1.25rem 3rem; color: #1c1f1a;
  background: #fff; font: 15px/1.45 "DejaVu Sans", "Segoe UI", Roboto, Helvetica, Arial,
  sans-serif; font-variant-numeric: tabular-nums; }
h1 { margin: 0; font-size: 1.75rem; line-height: 1.15; }
h2 { margin: 2rem 0 .5rem; font-size: 1.25rem; border-bottom: 2px solid #1c1f1a;
  padding-bottom: .2rem; break-after: avoid; }
h3 { margin: 1.1rem 0 .3rem; font-size: 1rem; break-after: avoid; }
.sub { margin: .2rem 0 1rem; font-size: 1.05rem; }
dl.facts { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; margin: 0; }
dl.facts dt { font-weight: 700; }
dl.facts dd { margin: 0; overflow-wrap: anywhere; }
.hash { font-family: "DejaVu Sans Mono", Consolas, monospace; font-size: .85em; }
ul.sums { display: grid; grid-template-columns: repeat(auto-fit, minmax(7.5rem, 1fr));
  gap: .5rem; margin: 1.25rem 0; padding: 0; list-style: none; }
ul.sums li { border: 1px solid #767c70; border-radius: .3rem; padding: .4rem .6rem; }
ul.sums b { display: block; font-size: 1.4rem; line-height: 1.2; }
.caution { border: 2px solid #1c1f1a; border-left-width: .6rem; padding: .5rem .8rem;
  margin: 1rem 0; break-inside: avoid; }
table { width: 100%; border-collapse: collapse; font-size: .87rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .45rem; overflow-wrap: anywhere; }
thead th { background: #e9ece4; border-bottom: 2px solid #1c1f1a; overflow-wrap: normal; }
tbody { border-bottom: 1px solid #767c70; }
td.n { white-space: nowrap; }
table.log { table-layout: fixed; }
col.w1 { width: 9%; } col.w2 { width: 10%; } col.w3 { width: 17%; }
col.w4 { width: 15.5%; } col.w5 { width: 12%; } col.w6 { width: 9%; } col.w7 { width: 9.5%; }
col.w8 { width: 7.5%; } col.w9 { width: 10.5%; }
tr.more td { padding-top: 0; }
tr.next td { border-top: 1px dotted #767c70; }
small { font-size: .92em; color: #3c4138; }
.mark { font-weight: 700; border: 1.5px solid #1c1f1a; border-radius: .2rem; padding: 0 .3em;
  white-space: nowrap; }
s { text-decoration-thickness: 1.5px; color: #3c4138; }
.signed { display: flex; gap: 2rem; margin-top: 2.5rem; break-inside: avoid; }
.signed span { flex: 1; border-top: 1px solid #1c1f1a; padding-top: .2rem; }
@media screen and (max-width: 46rem) { .wide { overflow-x: auto; } .wide table { min-width: 44rem; }
  .wide table.log { min-width: 0; }
  table.log, table.log tbody, table.log tr, table.log td, table.log th { display: block;
    width: auto; }
  table.log thead, table.log colgroup, table.log td:empty { display: none; }
  table.log th { background: #e9ece4; font-size: 1.05rem; }
  table.log td { white-space: normal; padding: .15rem .45rem; }
  table.log td[data-l]::before { content: attr(data-l) ": "; font-weight: 700; } }
@media print {
  @page { margin: 13mm 12mm; }
  body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.35; }
  h1 { font-size: 17pt; }
  h2 { font-size: 12.5pt; margin-top: 7mm; }
  table { font-size: 8.2pt; }
  ul.sums { grid-template-columns: repeat(6, 1fr); gap: 2mm; margin: 4mm 0; }
  ul.sums b { font-size: 13pt; }
  thead { display: table-header-group; }
  thead th { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  tbody, tr, ul.sums li { break-inside: avoid; }
}
)css";

}  // namespace storage
