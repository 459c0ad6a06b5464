#include <fmt/format.h>

#include "storage/register/register_files.h"
#include "storage/register/register_html_rows.h"
#include "storage/register/register_style.h"
#include "storage/register/register_text.h"
#include "storage/text/html_text.h"

namespace storage {
namespace {

using namespace engine;
using Rows = std::vector<RegisterRow>;

std::string caution_html() {
  return fmt::format("<p class=\"caution\"><strong>{}</strong> {}</p>\n",
                     html_escaped(kRegisterCautionFirst), html_escaped(kRegisterCaution));
}

std::string reading_html() {
  return fmt::format(
      "<h2>How to read this</h2>\n<p>{}</p>\n"
      "<div class=\"signed\"><span>Checked by</span><span>Date</span></div>\n",
      html_escaped(kRegisterReading));
}

// ---- one yard ----

std::string walk_html(const RegisterRow& r, Units shown) {
  const std::string who =
      lines_of({html_name(r.operator_name), html_name(r.operator_address)}, "<br>");
  return fmt::format(
      "<tbody><tr><td "
      "class=\"n\">{}</td><td>{}</td><td>{}</td><td>{}</td><td>{}</td></tr></tbody>\n",
      iso_date(r.date), who, html_escaped(r.weather ? weather_of(*r.weather, shown) : ""),
      html_name(r.reason), html_name(r.label_product));
}

std::string walks_html(const RowRefs& rows, Units shown) {
  std::string body;
  for (const RegisterRow* r : walks_among(rows)) body += walk_html(*r, shown);
  if (body.empty()) return "";
  return "<h3>Walks</h3>\n<div class=\"wide\"><table>\n<thead><tr><th>Date</th><th>Operator</th>"
         "<th>Weather at the start</th><th>Reason for treatment</th><th>Label rules of the "
         "walk</th>"
         "</tr></thead>\n" +
         body + "</table></div>\n";
}

std::string colonies_head() {
  std::string out = "<h3>Colonies</h3>\n<div class=\"wide\"><table class=\"log\">\n<colgroup>";
  for (std::size_t i = 1; i <= kColumnTitles.size(); ++i)
    out += fmt::format("<col class=\"w{}\">", i);
  out += "</colgroup>\n<thead><tr>";
  for (const char* title : kColumnTitles) out += fmt::format("<th>{}</th>", title);
  return out + "</tr></thead>\n";
}

std::string yard_html(const YardRows& yard, Units shown) {
  std::string out = "<h2>" + html_name(yard.name) + "</h2>\n";
  out += walks_html(yard.rows, shown);
  out += colonies_head();
  for (const ColonyRows& colony : yard.colonies) out += colony_html(colony.rows, shown);
  return out + "</table></div>\n";
}

std::string yards_html(const Rows& rows, Units shown) {
  std::string out;
  for (const YardRows& yard : by_yard(rows)) out += yard_html(yard, shown);
  return out.empty() ? "<h2>Entries</h2>\n<p>No treatments in this period.</p>\n" : out;
}

// ---- head and products ----

std::string head_html(const RegisterHead& head) {
  std::string out = "<header>\n<h1>Treatment register</h1>\n";
  out += fmt::format("<p class=\"sub\">{}, {}</p>\n<dl class=\"facts\">\n",
                     head.yard.empty() ? "All yards" : html_name(head.yard), period_of(head));
  for (const RegisterFact& fact : facts_of(head))
    out += fmt::format(
        "<dt>{}</dt><dd{}>{}</dd>\n", html_escaped(fact.what),
        fact.of == RegisterFact::Of::Digest ? " class=\"hash\"" : "",
        fact.of == RegisterFact::Of::Person ? html_name(fact.value) : html_escaped(fact.value));
  return out + "</dl>\n</header>\n";
}

std::string sums_html(const Rows& rows) {
  std::string out = "<ul class=\"sums\">\n";
  for (const RegisterSum& sum : sums_of(rows))
    out += fmt::format("<li><b>{}</b>{}</li>\n", sum.number, sum.what);
  return out + "</ul>\n";
}

std::string products_html(const Rows& rows) {
  const std::vector<ProductLine> lines = products_of(rows);
  if (lines.empty()) return "";
  std::string out = "<h2>Products</h2>\n<div class=\"wide\"><table>\n<thead><tr>";
  for (const char* title : kProductTitles) out += fmt::format("<th>{}</th>", title);
  out += "</tr></thead>\n<tbody>\n";
  for (const ProductLine& line : lines) {
    out += "<tr>";
    for (const std::string& text : line) out += "<td>" + html_name(text) + "</td>";
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table></div>\n";
}

template <std::size_t N>
std::string table_html(const std::array<const char*, N>& titles,
                       const std::vector<TableLine>& lines) {
  std::string out = "<div class=\"wide\"><table>\n<thead><tr>";
  for (const char* title : titles) out += fmt::format("<th>{}</th>", title);
  out += "</tr></thead>\n<tbody>\n";
  for (const TableLine& line : lines) {
    out += "<tr>";
    for (const std::string& text : line.cells) {
      const bool lined = line.struck && !text.empty() && &text != &line.cells.back();
      out += "<td>" + (lined ? "<s>" + html_name(text) + "</s>" : html_name(text)) + "</td>";
    }
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table></div>\n";
}

std::string stock_html(const RegisterHead& head) {
  if (head.stock.empty() && head.lots.empty()) return "";
  std::string out = "<h2>Acid bought and disposed of</h2>\n";
  out += table_html(kStockTitles, stock_lines(head.stock));
  out += "<h3>Lots as they stand now</h3>\n";
  return out + table_html(kLotTitles, lot_lines(head.lots));
}

}  // namespace

RegisterHead head_of(const Farm& farm, const RegisterQuery& query,
                     const std::string& journal_head) {
  RegisterHead head;
  head.from = query.from;
  head.to = query.to;
  if (query.yard)
    if (const auto at = farm.yards.find(*query.yard); at != farm.yards.end())
      head.yard = at->second.name;
  head.exported_by = farm.setup.operator_name;
  if (!farm.log.empty()) head.as_of = farm.log.back()->event.stamp;
  head.journal_head = journal_head;
  head.complete_from = complete_from(farm);
  head.shown = units_of(farm.setup);
  if (query.yard || query.colony || query.lot) return head;
  head.stock = stock_rows(farm, query.from, query.to);
  for (const Lot* lot : lots_by_code(farm)) head.lots.push_back(*lot);
  return head;
}

std::string register_html(const Rows& rows, const RegisterHead& head) {
  std::string out(kPageTop);
  out += fmt::format("<title>Treatment register, {}, {}</title>\n",
                     head.yard.empty() ? "all yards" : html_escaped(head.yard), period_of(head));
  out += fmt::format("<style>{}</style>\n</head>\n<body>\n", kRegisterStyle);
  out += head_html(head);
  out += sums_html(rows);
  out += caution_html();
  out += "<main>\n" + yards_html(rows, head.shown) + products_html(rows) + stock_html(head) +
         "</main>\n";
  out += reading_html();
  return out + "</body>\n</html>\n";
}

}  // namespace storage
