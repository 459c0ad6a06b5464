#include "storage/register_html_rows.h"

#include <fmt/format.h>

#include "storage/html_text.h"

namespace storage {

using namespace engine;

std::string lines_of(const std::vector<std::string>& parts, const char* between) {
  std::string out;
  for (const std::string& p : parts)
    if (!p.empty()) out += (out.empty() ? "" : between) + p;
  return out;
}

std::string weather_of(const Conditions& c, Units shown) {
  std::string out = words(c, kSi);
  if (c.temperature && shown.temperature != kSi.temperature)
    out += fmt::format(" ({})", show(*c.temperature, shown.temperature));
  return out;
}

namespace {

// "2 g dihydrate", and in the keeper's own unit when that is another.
std::string dose_of(Mass m, Basis basis, Units shown) {
  std::string out = words(m, basis, kSi);
  if (shown.mass != kSi.mass) out += fmt::format("<br>({})", show(m, shown.mass));
  return out;
}

// ---- the cells of one row ----

std::string product_cell(const RegisterRow& r) {
  const std::string lot = r.lot_code.empty() ? "" : "lot " + html_name(r.lot_code);
  return lines_of({html_name(r.product), lot}, "<br>");
}

std::string dose_cell(const RegisterRow& r, Units shown) {
  if (!r.dose) return html_name(r.dose_text);
  std::vector<std::string> parts{dose_of(*r.dose, r.basis, shown)};
  if (r.basis == Basis::Product && !r.dihydrate_equal)
    parts.emplace_back("<small>strength not entered</small>");
  if (r.basis != Basis::Dihydrate && r.dihydrate_equal)
    parts.push_back("<small>= " + words(*r.dihydrate_equal, Basis::Dihydrate, kSi) + "</small>");
  if (r.basis != Basis::Anhydrous && r.anhydrous_equal)
    parts.push_back("<small>= " + words(*r.anhydrous_equal, Basis::Anhydrous, kSi) + "</small>");
  return lines_of(parts, "<br>");
}

std::string hive_cell(const RegisterRow& r) {
  if (!r.brood_boxes || !r.supers_on) return "";
  return counted(static_cast<std::size_t>(*r.brood_boxes), "box", "boxes") +
         (*r.supers_on ? "<br>supers on" : "<br>no supers");
}

std::string times_cell(const RegisterRow& r) {
  std::vector<std::string> parts;
  if (r.dwell) parts.push_back("dwell " + minutes_seconds(r.dwell->length));
  if (r.seal) parts.push_back("seal " + minutes_seconds(r.seal->length));
  if (r.seal_end_inferred) parts.emplace_back("<small>end inferred</small>");
  if ((r.dwell && !r.dwell->sure) || (r.seal && !r.seal->sure))
    parts.emplace_back("<small>clock unsure</small>");
  return lines_of(parts, "<br>");
}

std::string withdrawal_cell(const RegisterRow& r) {
  return r.withdrawal_days ? counted(static_cast<std::size_t>(*r.withdrawal_days), "day", "days")
                           : "";
}

std::string outcome_cell(const RegisterRow& r) {
  std::vector<std::string> parts;
  if (r.struck) parts.emplace_back("<span class=\"mark\">STRUCK</span>");
  if (!r.struck && !r.counts()) parts.emplace_back("<span class=\"mark\">DOES NOT COUNT</span>");
  if (r.counts()) parts.emplace_back(html_escaped(words(r.outcome)));
  if (r.passed) parts.emplace_back(html_escaped(words(*r.passed)));
  if (r.method != Method::Vapor) parts.emplace_back(html_escaped(words(r.method)));
  if (r.over_label) parts.emplace_back("<span class=\"mark\">OVER THE LABEL</span>");
  if (r.supers_against_label)
    parts.emplace_back("<span class=\"mark\">SUPERS ON</span> against the label");
  if (r.supers_unclear)
    parts.emplace_back("<span class=\"mark\">SUPERS ON</span> the label profile does not say");
  if (r.lot_expired) parts.emplace_back("<span class=\"mark\">LOT EXPIRED</span>");
  return lines_of(parts, "<br>");
}

// ---- the line below a row, for what is out of the ordinary ----

std::string mishaps_of(const RegisterRow& r) {
  std::string out;
  for (const StopMishap& m : r.mishaps)
    out += fmt::format("{}Mishap at {}: {}{}.", out.empty() ? "" : " ", clock_time(m.at),
                       words(m.what), m.note.empty() ? "" : ", " + html_name(m.note));
  return out;
}

std::string come_back_of(const RegisterRow& r) {
  std::string out;
  for (const ComeBackReason& c : r.come_back)
    out += (out.empty() ? "Come back: " : "; ") + html_escaped(words(c));
  return out.empty() ? "" : out + ".";
}

std::string struck_of(const RegisterRow& r) {
  if (r.struck)
    return fmt::format("Struck {} {}: {}.", iso_date(local_date(r.struck->at)),
                       clock_time(r.struck->at),
                       r.struck->reason.empty() ? "no reason given" : html_name(r.struck->reason));
  if (r.counts()) return "";
  return "It stood on an entry that was struck. " + html_escaped(sentence(r.fallen));
}

// Of other treatments, which have no walk to say it.
std::string by_whom(const RegisterRow& r) {
  if (r.walk || r.operator_name.empty()) return "";
  return "By " + lines_of({html_name(r.operator_name), html_name(r.operator_address)}, ", ") + ".";
}

std::string more_of(const RegisterRow& r) {
  const bool flew = r.flight && *r.flight != Flight::None;
  return lines_of(
      {struck_of(r), flew ? std::string(words(*r.flight)) + "." : "", mishaps_of(r),
       come_back_of(r), r.note.empty() ? "" : "Note: " + html_name(r.note) + ".", by_whom(r),
       r.walk || r.registration.empty() ? ""
                                        : "Registration no. " + html_name(r.registration) + "."},
      " ");
}

// ---- one colony: its rows hold together ----

constexpr int kCellsBesideColony = 8;

std::string cell(const RegisterRow& r, const std::string& html, const char* css = "") {
  const bool lined = !r.counts() && !html.empty();
  return fmt::format("<td{}>{}{}{}</td>", css, lined ? "<s>" : "", html, lined ? "</s>" : "");
}

std::string row_html(const RegisterRow& r, Units shown, const std::string& colony, bool first) {
  std::string out = first ? "<tr>" : "<tr class=\"next\">";
  out += colony;
  const std::string when = iso_date(r.date) + (r.at ? "<br>" + clock_time(*r.at) : "");
  out += cell(r, when, " class=\"n\"");
  out += "<td>" + outcome_cell(r) + "</td>";
  out += cell(r, product_cell(r));
  out += cell(r, dose_cell(r, shown));
  out += cell(r, hive_cell(r), " class=\"n\"");
  out += cell(r, times_cell(r), " class=\"n\"");
  out += cell(r, withdrawal_cell(r), " class=\"n\"");
  out += fmt::format("<td><small>{}-<wbr>{}</small></td></tr>\n", short_device(r.entry.device),
                     r.entry.seq);
  if (const std::string more = more_of(r); !more.empty())
    out += fmt::format("<tr class=\"more\"><td colspan=\"{}\"><small>{}</small></td></tr>\n",
                       kCellsBesideColony, more);
  return out;
}

}  // namespace

std::string colony_html(const RowRefs& rows, Units shown) {
  std::size_t lines = rows.size();
  for (const RegisterRow* r : rows) lines += more_of(*r).empty() ? 0 : 1;
  std::string colony = fmt::format("<th scope=\"rowgroup\" rowspan=\"{}\">{}</th>", lines,
                                   html_name(rows.front()->colony_name));
  std::string out = "<tbody>\n";
  for (const RegisterRow* r : rows) {
    out += row_html(*r, shown, colony, r == rows.front());
    colony.clear();
  }
  return out + "</tbody>\n";
}

}  // namespace storage
