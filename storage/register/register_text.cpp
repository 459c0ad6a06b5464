#include "storage/register/register_text.h"

#include <algorithm>

namespace storage {

using namespace engine;

std::string period_of(const RegisterHead& head) {
  const std::string from = head.from ? iso_date(*head.from) : "";
  const std::string to = head.to ? iso_date(*head.to) : "";
  if (from.empty() && to.empty()) return "all days";
  if (from == to) return from;
  if (from.empty()) return "up to " + to;
  if (to.empty()) return "from " + from;
  return from + " to " + to;
}

std::string scope_of(const RegisterHead& head) {
  return (head.yard.empty() ? "All yards" : head.yard) + ", " + period_of(head);
}

std::vector<RegisterFact> facts_of(const RegisterHead& head) {
  using Of = RegisterFact::Of;
  std::vector<RegisterFact> facts;
  if (head.exported_by.empty())
    facts.push_back({"Exported by", "not entered"});
  else
    facts.push_back({"Exported by", head.exported_by, Of::Person});
  if (head.as_of.at != Utc{}) facts.push_back({"As it stood", rfc3339(head.as_of)});
  if (head.complete_from)
    facts.push_back({"Complete from", iso_date(*head.complete_from) +
                                          ", the first entry of this journal; what was done "
                                          "before is not in it"});
  if (!head.journal_head.empty())
    facts.push_back({"Journal's last entry", "SHA-256 " + head.journal_head, Of::Digest});
  return facts;
}

std::vector<ProductLine> products_of(const std::vector<RegisterRow>& rows) {
  std::vector<ProductLine> lines;
  for (const RegisterRow& r : rows) {
    if (r.product.empty()) continue;
    const ProductLine line{
        r.product,
        r.registration,
        r.lot_code,
        r.lot_expiry ? iso_date(*r.lot_expiry) : "",
        r.supplier_address.empty() ? r.supplier : r.supplier + ", " + r.supplier_address,
        r.receipt};
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }
  return lines;
}

namespace {

std::string grams_of(Mass m) { return show(m, kSi.mass); }

std::string joined(std::initializer_list<std::string> parts) {
  std::string out;
  for (const std::string& p : parts)
    if (!p.empty()) out += (out.empty() ? "" : ", ") + p;
  return out;
}

std::string entry_of(const StockRow& r) {
  std::string out = short_ref(r.entry);
  if (r.corrected_by)
    out += ", corrected by " + short_ref(*r.corrected_by);
  else if (r.struck)
    out += ", struck";
  if (r.struck && !r.struck->reason.empty()) out += ": " + r.struck->reason;
  if (r.corrects) out += ", corrects " + short_ref(*r.corrects);
  if (r.entered) out += ", entered " + iso_date(local_date(*r.entered));
  return out;
}

}  // namespace

std::vector<TableLine> stock_lines(const std::vector<StockRow>& rows) {
  std::vector<TableLine> lines;
  for (const StockRow& r : rows)
    lines.push_back(
        {{iso_date(r.on), r.why ? std::string("disposed of, ") + words(*r.why) : "received",
          r.product, r.code, r.expiry ? iso_date(*r.expiry) : "", grams_of(r.amount),
          r.why ? r.how
                : joined({r.supplier, r.supplier_address,
                          r.receipt.empty() ? "" : "receipt " + r.receipt}),
          entry_of(r)},
         !r.counts()});
  return lines;
}

std::vector<TableLine> lot_lines(const std::vector<Lot>& lots) {
  std::vector<TableLine> lines;
  for (const Lot& l : lots)
    lines.push_back({{l.code, l.product, l.expiry ? iso_date(*l.expiry) : "", grams_of(l.received),
                      grams_of(l.used), grams_of(l.disposed), grams_of(l.left())}});
  return lines;
}

}  // namespace storage
