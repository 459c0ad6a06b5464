// tests/reference/mites_fixture.h -- the reference colony: 25,000 bees held fixed, 1,200 worker and
// 15 drone eggs a day, 3.0 mites per 100 bees. All other constants are the defaults.
#pragma once
#include "engine/mites/compare.h"

namespace reference {

using namespace engine::mites;

inline Colony colony() {
  Colony c;
  c.adults = 25'000;
  c.adults_fixed = true;
  c.worker_eggs = 1200.0;
  c.drone_eggs = 15.0;
  return c;
}
inline ColonyState start() { return start_of(colony(), {LoadUnit::WashPer100, 3.0}); }

// Percent fewer mites than untreated on day 42.
inline double reduction(const std::vector<int>& days, double kill) {
  const ColonyRun untreated = run_untreated(colony(), start(), 42);
  return *compare(run(colony(), start(), {days, kill, 0}, 42), untreated, 42).reduction_pct;
}

}  // namespace reference
