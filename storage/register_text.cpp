#include "storage/register_text.h"

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
    facts.push_back({"Journal's last entry", "SHA-256 " + head.journal_head, Of::Hash});
  return facts;
}

std::vector<ProductLine> products_of(const std::vector<RegisterRow>& rows) {
  std::vector<ProductLine> lines;
  for (const RegisterRow& r : rows) {
    if (r.product.empty()) continue;
    const ProductLine line{r.product,  r.registration,
                           r.lot_code, r.lot_expiry ? iso_date(*r.lot_expiry) : "",
                           r.supplier, r.receipt};
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
  }
  return lines;
}

}  // namespace storage
