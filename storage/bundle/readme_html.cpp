#include "storage/bundle/readme_html.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "storage/register/register_cells.h"
#include "storage/register/register_text.h"
#include "storage/text/html_text.h"

namespace storage {
namespace {

using namespace engine;
using Rows = std::vector<RegisterRow>;

// What a file is for, in the order in which people want them; one that is in no line has none.
struct FileWords {
  std::string_view name, words;
};
constexpr auto kFiles = std::to_array<FileWords>({
    {"report.html", "The treatment register as a page, to read and to print."},
    {"keeper.xlsx",
     "The day, the register and the stock of acid as a workbook for a spreadsheet "
     "program: the copy for people."},
    {"register.csv",
     "The same register for other programs, with all columns. Whole numbers; the "
     "unit stands in the column's name."},
    {"stock.csv", "Acid bought and disposed of, for other programs."},
    {"day.csv", "Everything that was entered that day, line by line, for other programs."},
    {"rounds.ics", "Rounds, counts, visits and what treatments end with, for a calendar."},
    {"yards.geojson", "Yards and colonies, for a map."},
    {"events.jsonl",
     "The journal itself: every entry with the hash that chains it. Another tablet "
     "takes it in by `duskwalk merge`."},
    {"dictionary.md", "What every field of the journal means; enough to read it without Duskwalk."},
});

constexpr const char* kStyle = R"css(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 44rem; padding: 1rem 1rem 3rem; color: #1c1f1a;
  background: #fff; font: 16px/1.5 "DejaVu Sans", "Segoe UI", Roboto, Helvetica, Arial,
  sans-serif; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
h1 { margin: 0 0 .5rem; font-size: 1.6rem; line-height: 1.2; }
h2 { margin: 2rem 0 .5rem; font-size: 1.2rem; border-bottom: 2px solid #1c1f1a; }
h3 { margin: 1rem 0 .3rem; font-size: 1.05rem; }
table { width: 100%; border-collapse: collapse; }
th, td { text-align: left; vertical-align: top; padding: .3rem .5rem .3rem 0;
  border-bottom: 1px solid #767c70; }
dt { font-weight: 700; margin-top: .6rem; }
dd { margin: 0; }
a { color: #123f7a; }
.caution { border: 2px solid #1c1f1a; border-left-width: .6rem; padding: .5rem .8rem; }
@media print { body { max-width: none; font-size: 10pt; } tr, dt, dd { break-inside: avoid; } }
)css";

Rows of_last_day(const Rows& rows) {
  if (rows.empty()) return {};
  const Date last = std::max_element(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
                      return a.date < b.date;
                    })->date;
  Rows some;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(some),
               [&](const RegisterRow& r) { return r.date == last; });
  return some;
}

std::string outcome_of(const RegisterRow& r) {
  std::string out = words(r.outcome);
  if (r.passed) out += std::string(": ") + words(*r.passed);
  return out;
}

std::string row_html(const RegisterRow& r, Units shown) {
  const std::string dose = r.dose ? words(*r.dose, r.basis, shown) : r.dose_text;
  const std::string line =
      fmt::format("<td>{}</td><td>{}</td><td>{}</td><td>{}</td>", r.at ? clock_time(*r.at) : "",
                  html_name(r.colony_name), html_escaped(outcome_of(r)), html_name(dose));
  return "<tr>" + line + "</tr>\n";
}

std::string evening_html(const Rows& rows, Units shown) {
  if (rows.empty()) return "<p>No treatment was entered.</p>\n";
  std::string out;
  for (const YardRows& yard : by_yard(rows)) {
    out += "<h3>" + html_name(yard.name) + "</h3>\n<table>\n";
    out += "<thead><tr><th>Time</th><th>Colony</th><th>Outcome</th><th>Dose</th></tr></thead>\n";
    out += "<tbody>\n";
    for (const RegisterRow* row : yard.rows) out += row_html(*row, shown);
    out += "</tbody>\n</table>\n";
  }
  return out;
}

std::string files_html(const PayloadFiles& files) {
  std::string out = "<dl>\n";
  for (const FileWords& file : kFiles)
    if (files.contains(std::string(file.name)))
      out += fmt::format("<dt><a href=\"data/{0}\">{0}</a></dt>\n<dd>{1}</dd>\n", file.name,
                         html_escaped(file.words));
  return out + "</dl>\n";
}

}  // namespace

std::string readme_html(const Rows& rows, const RegisterHead& head, const PayloadFiles& files) {
  const Rows evening = of_last_day(rows);
  const std::string day = evening.empty() ? period_of(head) : iso_date(evening.front().date);
  std::string out(kPageTop);
  out += fmt::format("<title>Duskwalk, {}</title>\n<style>{}</style>\n</head>\n<body>\n",
                     html_escaped(day), kStyle);
  out += fmt::format("<h1>Treatments of {}</h1>\n", html_escaped(day));
  if (!head.exported_by.empty())
    out += fmt::format("<p>Written by {}.</p>\n", html_name(head.exported_by));
  out += evening_html(evening, head.shown);
  out += fmt::format("<p class=\"caution\"><strong>{}</strong> {}</p>\n",
                     html_escaped(kRegisterCautionFirst), html_escaped(kRegisterCaution));
  out += "<h2>What is in this folder</h2>\n" + files_html(files);
  out +=
      "<p>The folder is a BagIt bag (RFC 8493): manifest-sha256.txt has the sum of each file, and "
      "`sha256sum -c manifest-sha256.txt` checks them.</p>\n";
  return out + "</body>\n</html>\n";
}

}  // namespace storage
