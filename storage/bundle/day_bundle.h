// storage/bundle/day_bundle.h -- what goes into the bundle of a day.
//
// The same farm and records always give the same bytes: no clock is read, and the report stands as
// of the last entry. Writing them out is storage/bundle/bag.h.
#pragma once
#include <map>
#include <optional>
#include <span>
#include <string>

#include "engine/farm/farm.h"
#include "engine/method/method.h"
#include "storage/journal/record.h"

namespace storage {

// File name to bytes: events.jsonl, dictionary.md, day.csv, register.csv, report.html, stock.csv,
// keeper.xlsx, rounds.ics, yards.geojson.
using PayloadFiles = std::map<std::string, std::string>;

struct DayBundle {
  PayloadFiles files;
  std::string readme;  // the page at the top, which leads to them
};

// `records`: all of the journal, in its order (the last one's hash stands in the report). With a
// day: its events and treatments (the local date of each entry); rounds and yards are those of the
// farm. Without: everything. `methods` tell the calendar when strips come out.
[[nodiscard]] DayBundle bundle_of_day(const engine::Farm& farm, std::span<const Sealed> records,
                                      std::optional<engine::Date> day,
                                      std::span<const engine::MethodRules> methods = {});
[[nodiscard]] PayloadFiles payload_of_day(const engine::Farm& farm, std::span<const Sealed> records,
                                          std::optional<engine::Date> day,
                                          std::span<const engine::MethodRules> methods = {});

// What a stick may take out of the outfit: register.csv, report.html and stock.csv, and none of the
// entries, places and calendars. Notes (where a gate's code stands) and the addresses of keepers
// and suppliers are left out of them, unless `with_private`.
[[nodiscard]] PayloadFiles payload_for_others(const engine::Farm& farm,
                                              std::span<const Sealed> records,
                                              std::optional<engine::Date> day, bool with_private);

// The local date of a record.
[[nodiscard]] engine::Date local_date(const Record& record);

}  // namespace storage
