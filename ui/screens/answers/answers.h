// ui/screens/answers/answers.h -- what the engine says of the farm, for all screens: worked out
// when it is asked, kept while it holds.
//
// A page asks through a const Look. What takes longer than a frame is answered with what is known
// so far, and advance() goes on with it between frames, for as long as somebody asks.
#pragma once
#include <cstdint>
#include <optional>
#include <tuple>
#include <vector>

#include "engine/farm/setups.h"
#include "engine/guide/guide.h"
#include "engine/learn/learned.h"
#include "engine/words/contradictions.h"
#include "ui/screens/answers/budget.h"
#include "ui/screens/answers/memo.h"
#include "ui/screens/answers/plan_cache.h"
#include "ui/screens/answers/season_cache.h"

namespace ui {

struct Answers {
  // Without a planner the keeper walks in the walk's own order.
  explicit Answers(bool planner = true) : planned(planner) {}

  void advance(const engine::Farm& farm, const Budget& budget = {});

  [[nodiscard]] const engine::Learned& learned(const engine::Farm& farm) const;
  // nullptr: there is no plan. Good until the next question.
  [[nodiscard]] const engine::Lead* lead(const engine::Farm& farm, const engine::Walk& walk,
                                         const engine::Stamp& now) const;

  // What to do about a vaporizer's battery before the colony it goes to next. Good until another
  // question: a walk's page asks the same in each frame.
  [[nodiscard]] const engine::BatteryAdvice& battery_advice(
      const engine::Farm& farm, const engine::Walk& walk, engine::KitId vaporizer,
      std::optional<engine::ColonyId> next) const;
  // How far the battery's charge goes at this dose loaded. Good until another question.
  [[nodiscard]] const engine::ChargeEstimate& charge_of(const engine::Farm& farm,
                                                        engine::KitId battery,
                                                        engine::Mass loaded) const;

  // Good until the log grows.
  [[nodiscard]] const std::vector<engine::Contradicted>& contradictions(
      const engine::Farm& farm) const;

  [[nodiscard]] const std::vector<engine::Offer>& offers(const engine::Farm& farm) const;

  const bool planned;
  SeasonCache season;
  PlanCache plans;

 private:
  mutable engine::LearnedOnce learned_;
  mutable engine::Guide guide_;
  // By entries, and by what was asked.
  Latest<std::tuple<std::size_t, engine::WalkId, engine::KitId, std::optional<engine::ColonyId>>,
         engine::BatteryAdvice>
      advice_;
  Latest<std::tuple<std::size_t, engine::KitId, std::int64_t>, engine::ChargeEstimate> charge_;
  Latest<std::size_t, std::vector<engine::Contradicted>> contradictions_;  // by entries
  Latest<std::size_t, std::vector<engine::Offer>> offers_;                 // the same
};

// What was learned of dwells and charges.
[[nodiscard]] const engine::Learned& learned(const Look& look);

// The plan that leads this device's walk under way; nullptr: there is none, the walk's own order
// serves.
[[nodiscard]] const engine::Lead* lead(const Look& look, const engine::Walk& walk);

}  // namespace ui
