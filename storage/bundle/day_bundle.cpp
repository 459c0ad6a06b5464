#include "storage/bundle/day_bundle.h"

#include <vector>

#include "storage/bundle/readme_html.h"
#include "storage/bundle/rounds_ics.h"
#include "storage/bundle/yards_geojson.h"
#include "storage/journal/events_jsonl.h"
#include "storage/register/register_files.h"
#include "storage/register/workbook.h"
#include "storage/store/data_dictionary.h"

namespace storage {

engine::Date local_date(const Record& record) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{record.at_utc_ms}};
  s.zone = std::chrono::minutes{record.zone_offset_min};
  return engine::local_date(s);
}

DayBundle bundle_of_day(const engine::Farm& farm, std::span<const Sealed> records,
                        std::optional<engine::Date> day,
                        std::span<const engine::MethodRules> methods) {
  std::vector<Sealed> of_day;
  for (const Sealed& s : records)
    if (!day || local_date(s.record) == *day) of_day.push_back(s);
  const engine::RegisterQuery query{day, day, {}};
  const auto rows = engine::register_rows(farm, query);
  const RegisterHead head = head_of(farm, query, records.empty() ? "" : hex(records.back().hash));
  const auto days = engine::day_rows(farm, day, engine::kSi);
  DayBundle bundle;
  bundle.files = {
      {"events.jsonl", events_jsonl(of_day)},
      {"dictionary.md", dictionary_text()},
      {"day.csv", day_csv(days)},
      {"register.csv", register_csv(rows, head.shown)},
      {"report.html", register_html(rows, head)},
      {"stock.csv", stock_csv(head.stock)},
      {"keeper.xlsx", workbook(days, rows, head)},
      {"rounds.ics", rounds_ics(farm, head.as_of, methods)},
      {"yards.geojson", yards_geojson(farm)},
  };
  if (bundle.files.at("keeper.xlsx").empty()) bundle.files.erase("keeper.xlsx");  // no memory
  bundle.readme = readme_html(rows, head, bundle.files);
  return bundle;
}

PayloadFiles payload_of_day(const engine::Farm& farm, std::span<const Sealed> records,
                            std::optional<engine::Date> day,
                            std::span<const engine::MethodRules> methods) {
  return bundle_of_day(farm, records, day, methods).files;
}

PayloadFiles payload_for_others(const engine::Farm& farm, std::span<const Sealed> records,
                                std::optional<engine::Date> day, bool with_private) {
  const engine::RegisterQuery query{day, day, {}};
  auto rows = engine::register_rows(farm, query);
  if (!with_private)
    for (engine::RegisterRow& row : rows) {
      row.note.clear();
      row.operator_address.clear();
      row.supplier_address.clear();
    }
  RegisterHead head = head_of(farm, query, records.empty() ? "" : hex(records.back().hash));
  if (!with_private) {
    for (engine::StockRow& row : head.stock) row.supplier_address.clear();
    for (engine::Lot& lot : head.lots) lot.supplier_address.clear();
  }
  return {
      {"register.csv", register_csv(rows, head.shown)},
      {"report.html", register_html(rows, head)},
      {"stock.csv", stock_csv(head.stock)},
  };
}

}  // namespace storage
