// ui/screens/answers/plan_cache.h -- what the planner says of a walk that is not open yet, worked
// out once.
//
// Planning takes up to a second for a hundred colonies, so a page is drawn first and the plan
// worked out in the frame after; the table of cloths comes row by row, one row a frame.
#pragma once
#include <map>
#include <optional>
#include <vector>

#include "engine/guide/foresee.h"

namespace ui {

// The question: the walk at its opening, and what bounds its seal.
struct PlanAsk {
  engine::OrderCase walk;
  engine::Seconds least{};        // no seal is planned shorter
  std::optional<double> light_s;  // until the last light
  friend bool operator==(const PlanAsk&, const PlanAsk&) = default;
};

inline constexpr int kClothsInTable = 12;

class PlanCache {
 public:
  // Works it out now. `wish` none: the whole seal while the light lasts. Good until the next call.
  const engine::Foreseen& foreseen(const PlanAsk& ask, std::optional<engine::SealWish> wish);
  // nullptr in the first frame that asks: draw without it, and come again.
  const engine::Foreseen* if_ready(const PlanAsk& ask, std::optional<engine::SealWish> wish);

  // The rows known by now, for 1, 2, 3, ... cloths; works one more out while some are missing.
  const std::vector<engine::ClothRow>& cloths(const PlanAsk& ask);

 private:
  void about(const PlanAsk& ask);

  std::optional<PlanAsk> ask_;
  std::map<int, engine::Foreseen> foreseen_;  // by wish; -1: none
  std::map<int, bool> asked_;
  std::vector<engine::ClothRow> rows_;
};

}  // namespace ui
