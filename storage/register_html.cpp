#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "storage/html_text.h"
#include "storage/register_files.h"
#include "storage/register_html_rows.h"
#include "storage/register_style.h"

namespace storage {
namespace {

using namespace engine;
using Rows = std::vector<RegisterRow>;

constexpr const char* kCaution =
    R"(<p class="caution"><strong>The label in your hand decides.</strong> This report says what was
entered; it does not say that a treatment was allowed or that it worked. Doses, honey supers,
withdrawal and protection follow the label of the container, local law and licensed practice. Keep
registers as long as your law asks: Regulation (EU) 2019/6, Article 108, asks for at least five
years.</p>
)";

constexpr const char* kReading =
    R"(<h2>How to read this</h2>
<p>Masses are grams of what stands beside them; 1 g of oxalic acid dihydrate is 0.714 g anhydrous
(molar masses 126.065 and 90.034). Dwell is the time from setting to lifting the vaporizer, seal the
time the entrance was closed; <em>end inferred</em> means the cloth turned up on another colony,
which ends its time on this one. STRUCK entries were taken back and do not count; they stay readable
with the reason. Times are local to the entry. Each entry is named by its tablet and number.</p>
<div class="signed"><span>Checked by</span><span>Date</span></div>
)";

std::string fact(const char* what, const std::string& html) {
  return html.empty() ? "" : fmt::format("<dt>{}</dt><dd>{}</dd>\n", what, html);
}

std::string period_of(const RegisterHead& head) {
  const std::string from = head.from ? iso_date(*head.from) : "";
  const std::string to = head.to ? iso_date(*head.to) : "";
  if (from.empty() && to.empty()) return "all days";
  if (from == to) return from;
  if (from.empty()) return "up to " + to;
  if (to.empty()) return "from " + from;
  return from + " to " + to;
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
  std::vector<WalkId> done;
  for (const RegisterRow* r : rows) {
    if (!r->walk || std::find(done.begin(), done.end(), *r->walk) != done.end()) continue;
    done.push_back(*r->walk);
    body += walk_html(*r, shown);
  }
  if (body.empty()) return "";
  return "<h3>Walks</h3>\n<div class=\"wide\"><table>\n<thead><tr><th>Date</th><th>Operator</th>"
         "<th>Weather at the start</th><th>Reason for treatment</th><th>Label rules of the "
         "walk</th>"
         "</tr></thead>\n" +
         body + "</table></div>\n";
}

constexpr const char* kColoniesHead =
    R"(<h3>Colonies</h3>
<div class="wide"><table class="log">
<colgroup><col class="w1"><col class="w2"><col class="w3"><col class="w4"><col class="w5"><col
class="w6"><col class="w7"><col class="w8"><col class="w9"></colgroup>
<thead><tr><th>Colony</th><th>When</th><th>Outcome</th><th>Product</th><th>Dose</th><th>Hive</th>
<th>Times</th><th>With&shy;drawal</th><th>Entry</th></tr></thead>
)";

std::string yard_html(const RowRefs& rows, Units shown) {
  std::vector<std::pair<ColonyId, RowRefs>> colonies;  // as they first come
  for (const RegisterRow* r : rows) {
    auto at = std::find_if(colonies.begin(), colonies.end(),
                           [&](const auto& c) { return c.first == r->colony; });
    if (at == colonies.end()) at = colonies.insert(colonies.end(), {r->colony, {}});
    at->second.push_back(r);
  }
  std::string out = "<h2>" + html_name(rows.front()->yard_name) + "</h2>\n";
  out += walks_html(rows, shown);
  out += kColoniesHead;
  for (const auto& [id, of_colony] : colonies) out += colony_html(of_colony, shown);
  return out + "</table></div>\n";
}

std::string yards_html(const Rows& rows, Units shown) {
  std::map<std::pair<std::string, YardId>, RowRefs> yards;
  for (const RegisterRow& r : rows) yards[{r.yard_name, r.yard}].push_back(&r);
  std::string out;
  for (const auto& [key, of_yard] : yards) out += yard_html(of_yard, shown);
  return out.empty() ? "<h2>Entries</h2>\n<p>No treatments in this period.</p>\n" : out;
}

// ---- head and products ----

std::string head_html(const RegisterHead& head) {
  std::string out = "<header>\n<h1>Treatment register</h1>\n";
  out += fmt::format("<p class=\"sub\">{}, {}</p>\n<dl class=\"facts\">\n",
                     head.yard.empty() ? "All yards" : html_name(head.yard), period_of(head));
  out +=
      fact("Exported by", head.exported_by.empty() ? "not entered" : html_name(head.exported_by));
  if (head.as_of.at != Utc{}) out += fact("As it stood", html_escaped(rfc3339(head.as_of)));
  if (head.complete_from)
    out += fact("Complete from", iso_date(*head.complete_from) +
                                     ", the first entry of this journal; what was done before is "
                                     "not in it");
  if (!head.journal_head.empty())
    out += fact("Journal's last entry",
                "SHA-256 <span class=\"hash\">" + html_escaped(head.journal_head) + "</span>");
  return out + "</dl>\n</header>\n";
}

struct Sums {
  std::size_t treated = 0, passed = 0, not_reached = 0, come_back = 0, marked = 0, struck = 0;
};

Sums sums_of(const Rows& rows) {
  Sums s;
  for (const RegisterRow& r : rows) {
    if (!r.counts()) {
      ++s.struck;
      continue;
    }
    const bool passed = r.outcome == Outcome::PassedOver;
    const bool not_reached = r.outcome == Outcome::NotReached;
    s.passed += passed ? 1 : 0;
    s.not_reached += not_reached ? 1 : 0;
    s.treated += passed || not_reached ? 0 : 1;
    s.come_back += r.come_back.empty() ? 0 : 1;
    s.marked += r.over_label || r.supers_against_label ? 1 : 0;
  }
  return s;
}

std::string sums_html(const Rows& rows) {
  const Sums s = sums_of(rows);
  const auto tile = [](std::size_t n, const char* what) {
    return fmt::format("<li><b>{}</b>{}</li>\n", n, what);
  };
  return "<ul class=\"sums\">\n" + tile(s.treated, "treatments") + tile(s.passed, "passed over") +
         tile(s.not_reached, "not reached") + tile(s.come_back, "with a reason to come back") +
         tile(s.marked, "against the label") + tile(s.struck, "struck or fallen") + "</ul>\n";
}

std::string products_html(const Rows& rows) {
  std::vector<std::string> lines;
  for (const RegisterRow& r : rows) {
    if (r.product.empty()) continue;
    const std::string line = fmt::format(
        "<tr><td>{}</td><td>{}</td><td>{}</td><td class=\"n\">{}</td><td>{}</td><td>{}</td></tr>\n",
        html_name(r.product), html_name(r.registration), html_name(r.lot_code),
        r.lot_expiry ? iso_date(*r.lot_expiry) : "", html_name(r.supplier), html_name(r.receipt));
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }
  if (lines.empty()) return "";
  std::string out =
      "<h2>Products</h2>\n<div class=\"wide\"><table>\n<thead><tr><th>Product</th>"
      "<th>Registration no.</th><th>Lot</th><th>Expiry</th><th>Supplier</th><th>Receipt</th>"
      "</tr></thead>\n<tbody>\n";
  for (const std::string& line : lines) out += line;
  return out + "</tbody>\n</table></div>\n";
}

constexpr const char* kTop =
    R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="Duskwalk">
<link rel="icon" href="data:,">
)";

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
  if (!farm.log.empty()) head.as_of = farm.log.back().event.stamp;
  head.journal_head = journal_head;
  head.complete_from = complete_from(farm);
  head.shown = units_of(farm.setup);
  return head;
}

std::string register_html(const Rows& rows, const RegisterHead& head) {
  std::string out = kTop;
  out += fmt::format("<title>Treatment register, {}, {}</title>\n",
                     head.yard.empty() ? "all yards" : html_escaped(head.yard), period_of(head));
  out += fmt::format("<style>{}</style>\n</head>\n<body>\n", kRegisterStyle);
  out += head_html(head);
  out += sums_html(rows);
  out += kCaution;
  out += "<main>\n" + yards_html(rows, head.shown) + products_html(rows) + "</main>\n";
  out += kReading;
  return out + "</body>\n</html>\n";
}

}  // namespace storage
