#include "storage/bundle/day_bundle.h"

#include <vector>

#include "storage/bundle/rounds_ics.h"
#include "storage/bundle/yards_geojson.h"
#include "storage/journal/events_jsonl.h"
#include "storage/register/register_files.h"

namespace storage {

engine::Date local_date(const Record& record) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{record.at_utc_ms}};
  s.zone = std::chrono::minutes{record.zone_offset_min};
  return engine::local_date(s);
}

PayloadFiles payload_of_day(const engine::Farm& farm, std::span<const Sealed> records,
                            std::optional<engine::Date> day) {
  std::vector<Sealed> of_day;
  for (const Sealed& s : records)
    if (!day || local_date(s.record) == *day) of_day.push_back(s);
  const engine::RegisterQuery query{day, day, {}};
  const auto rows = engine::register_rows(farm, query);
  const RegisterHead head = head_of(farm, query, records.empty() ? "" : hex(records.back().hash));
  return {
      {"events.jsonl", events_jsonl(of_day)},
      {"day.csv", day_csv(engine::day_rows(farm, day, engine::kSi))},
      {"register.csv", register_csv(rows, head.shown)},
      {"report.html", register_html(rows, head)},
      {"stock.csv", stock_csv(head.stock)},
      {"rounds.ics", rounds_ics(farm, head.as_of)},
      {"yards.geojson", yards_geojson(farm)},
  };
}

}  // namespace storage
