// ui/screens/answers/plan_cache.h -- what the planner says of a walk that is not open yet, worked
// out once.
//
// Planning takes up to a second for a hundred colonies, so a page is drawn first and the plan
// worked out before the next frame; the table of cloths comes row by row.
#pragma once
#include <optional>
#include <set>
#include <vector>

#include "engine/guide/foresee.h"
#include "ui/screens/answers/budget.h"
#include "ui/screens/answers/memo.h"

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
  // Works out what was asked since the last time and is not known.
  void advance(const Budget& budget);

  // Works it out now. `wish` none: the whole seal while the light lasts. Good until a question
  // about another walk.
  const engine::Foreseen& foreseen(const PlanAsk& ask, std::optional<engine::SealWish> wish) const;
  // nullptr: not known yet; draw without it, and come again.
  const engine::Foreseen* if_ready(const PlanAsk& ask, std::optional<engine::SealWish> wish) const;

  // The rows known by now, for 1, 2, 3, ... cloths; the table ends with kClothsInTable.
  const std::vector<engine::ClothRow>& cloths(const PlanAsk& ask) const;

 private:
  using Wish = std::optional<engine::SealWish>;
  void about(const PlanAsk& ask) const;
  const engine::Foreseen& worked_out(Wish wish) const;
  void add_cloth_row();

  // What is known of the walk asked about last, and what is still to be worked out.
  struct Kept {
    std::optional<PlanAsk> ask;
    Memo<Wish, engine::Foreseen> foreseen;
    std::set<Wish> ready, wanted;
    std::vector<engine::ClothRow> rows;
    bool rows_wanted = false;
  };
  mutable Kept kept_;
};

}  // namespace ui
