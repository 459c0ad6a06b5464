#include "ui/screens/answers/plan_cache.h"

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

int key_of(std::optional<engine::SealWish> wish) { return wish ? static_cast<int>(*wish) : -1; }

}  // namespace

// The light grows less with every second; what was planned stands for a minute.
void PlanCache::about(const PlanAsk& ask) {
  PlanAsk coarse = ask;
  if (coarse.light_s) coarse.light_s = std::floor(*coarse.light_s / 60) * 60;
  if (ask_ == coarse) return;
  const bool same_walk = ask_ && ask_->walk == coarse.walk;
  ask_ = coarse;
  foreseen_.clear();
  asked_.clear();
  if (!same_walk) rows_.clear();
}

const engine::Foreseen& PlanCache::foreseen(const PlanAsk& ask,
                                            std::optional<engine::SealWish> wish) {
  about(ask);
  const auto at = foreseen_.find(key_of(wish));
  if (at != foreseen_.end()) return at->second;
  engine::Foreseen f = wish ? engine::foresee(ask_->walk, *wish, ask_->least, ask_->light_s)
                            : engine::foresee(ask_->walk, ask_->least, ask_->light_s);
  return foreseen_.emplace(key_of(wish), std::move(f)).first->second;
}

const engine::Foreseen* PlanCache::if_ready(const PlanAsk& ask,
                                            std::optional<engine::SealWish> wish) {
  about(ask);
  bool& asked = asked_[key_of(wish)];
  if (asked) return &foreseen(ask, wish);
  asked = true;
  return nullptr;
}

const std::vector<engine::ClothRow>& PlanCache::cloths(const PlanAsk& ask) {
  about(ask);
  const int next = static_cast<int>(rows_.size()) + 1;
  if (next > kClothsInTable) return rows_;
  engine::ClothRow row =
      engine::cloth_table(ask_->walk, next, next, engine::OrderEffort::Quick).at(0);
  if (!rows_.empty()) {  // more cloths are never worse: what fewer can do, they can
    row.finish_s = std::min(row.finish_s, rows_.back().finish_s);
    row.longest_seal_s = std::max(row.longest_seal_s, rows_.back().longest_seal_s);
  }
  rows_.push_back(row);
  return rows_;
}

}  // namespace ui
