// engine/register/stock.h -- acid that came in, was given and was disposed of, lot by lot.
//
// What the UK Veterinary Medicines Regulations ask of purchase and disposal (product, batch, day,
// quantity, supplier and address, receipt; quantity, day, how and where), with hives as the units.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// One delivery or disposal. Like the register's rows, struck ones stay and are marked.
struct StockRow {
  EntryRef entry;
  std::optional<EntryRef> corrects;
  std::optional<EntryRef> corrected_by;
  Date on{};
  std::optional<Stamp> entered;  // when that was another day
  LotId lot;
  std::string product;
  std::string code;
  std::optional<Date> expiry;
  Mass amount;
  std::optional<DisposalWhy> why;  // disposed of; none: received
  std::string how;                 // how and where it was disposed of
  std::string supplier;
  std::string supplier_address;
  std::string receipt;
  std::optional<Struck> struck;
  Refusal fallen = Refusal::None;
  [[nodiscard]] bool counts() const { return !struck && fallen == Refusal::None; }
};

// By day; both days included, either may be missing.
[[nodiscard]] std::vector<StockRow> stock_rows(const Farm& farm, std::optional<Date> from,
                                               std::optional<Date> to);

// The lots as they stand now, by code: received less used less disposed of is left, to the
// milligram.
[[nodiscard]] std::vector<const Lot*> lots_by_code(const Farm& farm);

}  // namespace engine
