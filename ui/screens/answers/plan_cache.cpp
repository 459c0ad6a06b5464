#include "ui/screens/answers/plan_cache.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace ui {

// The light grows less with every second; what was planned stands for a minute.
void PlanCache::about(const PlanAsk& ask) const {
  PlanAsk coarse = ask;
  if (coarse.light_s) coarse.light_s = std::floor(*coarse.light_s / 60) * 60;
  if (kept_.ask == coarse) return;
  Kept anew;
  if (kept_.ask && kept_.ask->walk == coarse.walk) anew.rows = std::move(kept_.rows);
  anew.ask = std::move(coarse);
  kept_ = std::move(anew);
}

const engine::Foreseen& PlanCache::worked_out(Wish wish) const {
  assert(kept_.ask);
  const PlanAsk& ask = *kept_.ask;
  kept_.ready.insert(wish);
  return kept_.foreseen.of(wish, [&] {
    return wish ? engine::foresee(ask.walk, *wish, ask.least, ask.light_s)
                : engine::foresee(ask.walk, ask.least, ask.light_s);
  });
}

void PlanCache::advance(const Budget& budget) {
  int plans = budget.plans;
  for (const Wish wish : std::exchange(kept_.wanted, {}))
    if (plans-- > 0) worked_out(wish);
  if (!std::exchange(kept_.rows_wanted, false)) return;
  for (int i = 0; i < budget.cloth_rows && kept_.rows.size() < kClothsInTable; ++i) add_cloth_row();
}

void PlanCache::add_cloth_row() {
  const int next = static_cast<int>(kept_.rows.size()) + 1;
  engine::ClothRow row =
      engine::cloth_table(kept_.ask->walk, next, next, engine::OrderEffort::Quick).at(0);
  if (!kept_.rows.empty()) {  // more cloths are never worse: what fewer can do, they can
    row.finish_s = std::min(row.finish_s, kept_.rows.back().finish_s);
    row.longest_seal_s = std::max(row.longest_seal_s, kept_.rows.back().longest_seal_s);
  }
  kept_.rows.push_back(row);
}

const engine::Foreseen& PlanCache::foreseen(const PlanAsk& ask, Wish wish) const {
  about(ask);
  return worked_out(wish);
}

const engine::Foreseen* PlanCache::if_ready(const PlanAsk& ask, Wish wish) const {
  about(ask);
  if (kept_.ready.contains(wish)) return &worked_out(wish);
  kept_.wanted.insert(wish);
  return nullptr;
}

const std::vector<engine::ClothRow>& PlanCache::cloths(const PlanAsk& ask) const {
  about(ask);
  kept_.rows_wanted = true;
  return kept_.rows;
}

}  // namespace ui
