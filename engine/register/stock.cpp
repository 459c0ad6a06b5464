#include "engine/register/stock.h"

#include <algorithm>

#include "engine/farm/queries.h"
#include "engine/register/corrections_of.h"
#include "engine/words/lookup.h"

namespace engine {
namespace {

StockRow begin_row(const Farm& farm, const Said& e, LotId lot, Date on) {
  StockRow row;
  row.entry = e.by.event.ref;
  if (const auto* c = std::get_if<EntryCorrected>(&e.by.event.body)) row.corrects = c->entry;
  if (const EntryHandle c = correction_after(farm, e.by)) row.corrected_by = c->event.ref;
  row.on = on;
  if (local_date(e.first.event.stamp) != on) row.entered = e.first.event.stamp;
  row.lot = lot;
  row.struck = e.by.struck;
  row.fallen = e.by.fallen;
  return row;
}

StockRow row_of(const Farm& farm, const Said& e, const StockReceived& r) {
  StockRow row = begin_row(farm, e, r.lot, r.on.value_or(local_date(e.first.event.stamp)));
  row.product = r.product;
  row.code = r.code;
  row.expiry = r.expiry;
  row.amount = r.amount;
  row.supplier = r.supplier;
  row.supplier_address = r.supplier_address.value_or("");
  row.receipt = r.receipt;
  return row;
}

StockRow row_of(const Farm& farm, const Said& e, const AcidDisposed& d) {
  StockRow row = begin_row(farm, e, d.lot, d.on);
  if (const auto lot = lot_of(farm, d.lot)) {
    row.product = lot->product;
    row.code = lot->code;
    row.expiry = lot->expiry;
  }
  row.amount = d.amount;
  row.why = d.why;
  row.how = d.how;
  return row;
}

}  // namespace

EntryHandle correction_after(const Farm& farm, const Entry& e) {
  const auto at = e.struck ? farm.log.find(e.struck->by) : std::nullopt;
  if (!at) return nullptr;
  EntryHandle by = farm.log[*at];
  return facts_of(by->event.body).says == Says::Correction ? by : nullptr;
}

std::vector<StockRow> stock_rows(const Farm& farm, std::optional<Date> from,
                                 std::optional<Date> to) {
  std::vector<StockRow> rows;
  farm.log.each<StockReceived, AcidDisposed>([&](const Entry& entry) {
    each_said(farm, entry, [&](const Said& e, const Body& body) {
      if (const auto* r = std::get_if<StockReceived>(&body)) rows.push_back(row_of(farm, e, *r));
      if (const auto* d = std::get_if<AcidDisposed>(&body)) rows.push_back(row_of(farm, e, *d));
    });
  });
  std::erase_if(rows,
                [&](const StockRow& r) { return (from && r.on < *from) || (to && r.on > *to); });
  std::stable_sort(rows.begin(), rows.end(),
                   [](const StockRow& a, const StockRow& b) { return a.on < b.on; });
  return rows;
}

std::vector<const Lot*> lots_by_code(const Farm& farm) {
  std::vector<const Lot*> lots;
  for (const auto& [id, lot] : farm.lots) lots.push_back(&lot);
  std::stable_sort(lots.begin(), lots.end(), [](const Lot* a, const Lot* b) {
    if (a->code != b->code) return before_by_name(a->code, b->code);
    return a->id < b->id;
  });
  return lots;
}

}  // namespace engine
