#include "engine/register/day.h"

#include "engine/words/lookup.h"

namespace engine {
namespace {

DayRow row_of(const Farm& farm, const Entry& e, Units units) {
  DayRow row;
  row.entry = e.event.ref;
  row.at = e.event.stamp;
  row.kind = kind(e.event.body);
  if (const auto yard = yard_of(e.event.body, farm)) row.yard = yard_called(farm, *yard);
  if (const auto colony = colony_of(e.event.body, farm)) row.colony = colony_called(farm, *colony);
  row.what = describe(e.event.body, farm, units);
  row.struck = e.struck;
  row.fallen = e.fallen;
  return row;
}

}  // namespace

std::vector<DayRow> day_rows(const Farm& farm, std::optional<Date> day, Units units) {
  std::vector<DayRow> rows;
  farm.log.scan(0, [&](std::size_t, const Entry& e) {
    if (!day || local_date(e.event.stamp) == *day) rows.push_back(row_of(farm, e, units));
  });
  return rows;
}

}  // namespace engine
