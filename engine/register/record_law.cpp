// One table of what can be missing in a row, and by which law it is asked for.
#include "engine/register/record_law.h"

#include <fmt/format.h>

#include <algorithm>

namespace engine {
namespace {

bool is_treatment(const RegisterRow& row) {
  return row.counts() && row.outcome != Outcome::PassedOver && row.outcome != Outcome::NotReached;
}

struct AskedInRow {
  const char* what;
  std::array<bool, 4> by;  // in the order of RecordLaw
  bool (*missing)(const RegisterRow&);
};

// Date, method and colony are in every row. Vapor is over on the day it is given: only what stays
// in the hive has a duration.
constexpr AskedInRow kAsked[] = {
    {"product", {true, true, true, true}, [](const RegisterRow& r) { return r.product.empty(); }},
    {"batch or lot number",
     {false, true, false, false},
     [](const RegisterRow& r) { return r.lot_code.empty(); }},
    {"quantity",
     {true, true, true, false},
     [](const RegisterRow& r) { return !r.dose && r.dose_text.empty(); }},
    {"supplier",
     {true, true, false, false},
     [](const RegisterRow& r) { return r.supplier.empty(); }},
    {"address of the supplier",
     {true, true, false, false},
     [](const RegisterRow& r) { return r.supplier_address.empty(); }},
    {"receipt, as proof of purchase",
     {true, false, false, false},
     [](const RegisterRow& r) { return r.receipt.empty(); }},
    {"days before honey, 0 written out",
     {true, true, false, false},
     [](const RegisterRow& r) { return !r.withdrawal_days; }},
    {"days in the hive",
     {true, false, false, false},
     [](const RegisterRow& r) { return r.method == Method::Strip && !r.days_given; }},
    {"name of who treated",
     {false, false, true, false},
     [](const RegisterRow& r) { return r.operator_name.empty(); }},
    {"address of who treated",
     {false, false, true, false},
     [](const RegisterRow& r) { return r.operator_address.empty(); }},
};

}  // namespace

std::vector<std::string> law_says(RecordLaw law) {
  switch (law) {
    case RecordLaw::Eu:
      return {"Regulation (EU) 2019/6, Article 108: keep the record at least 5 years.",
              "A prescription is not in the log: add who wrote it."};
    case RecordLaw::Uk:
      return {
          "UK Veterinary Medicines Regulations: keep the record 5 years after giving or "
          "disposal, even when the colony is dead or sold.",
          "What was disposed of is in the stock list."};
    case RecordLaw::UsOrganic:
      return {
          "US organic, 7 USC 6519 and 7 CFR 205.103: keep the record 5 years from when it was "
          "made."};
    case RecordLaw::NewSouthWales:
      break;
  }
  return {
      "New South Wales: keep movements and losses 5 years; the Australian code asks for "
      "inspections, methods and movements for 3 years.",
      "Movements, losses and counts are in the bundle's list of each day, not in this register."};
}

std::vector<std::string> missing_for(RecordLaw law, std::span<const RegisterRow> rows) {
  const auto all = std::count_if(rows.begin(), rows.end(), is_treatment);
  std::vector<std::string> lines;
  for (const AskedInRow& asked : kAsked) {
    if (!asked.by[static_cast<std::size_t>(law)]) continue;
    const auto n = std::count_if(rows.begin(), rows.end(), [&](const RegisterRow& r) {
      return is_treatment(r) && asked.missing(r);
    });
    if (n > 0) lines.push_back(fmt::format("{}: missing in {} of {}", asked.what, n, all));
  }
  return lines;
}

}  // namespace engine
