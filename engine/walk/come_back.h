// engine/walk/come_back.h -- why a colony still needs a visit after a walk.
#pragma once
#include <vector>

#include "engine/walk/walk.h"

namespace engine {

enum class ComeBackWhy {
  FlyingHeavy,  // treated while many bees were out
  ShortDwell,
  ShortSeal,
  PassedOver,   // with the reason it was passed over for
  HadMishap,    // with what happened
  NotReached,   // the walk was closed before its turn
  LeftCovered,  // the walk was closed while its entrance was closed: the bees need air
  ClockUnsure,  // the clock was changed over a restart: nobody knows how long it was
  VaporHalted,  // the vaporizer was lifted while it gave no vapor
};
constexpr std::array<const char*, 9> enum_names(ComeBackWhy) {
  return {"flying_heavy", "short_dwell",  "short_seal",   "passed_over", "mishap",
          "not_reached",  "left_covered", "clock_unsure", "vapor_halted"};
}

struct ComeBackReason {
  ComeBackWhy why = ComeBackWhy::NotReached;
  std::optional<PassReason> passed;
  std::optional<MishapKind> mishap;
  std::optional<Ms> length;  // of the dwell or seal that was short
  friend bool operator==(const ComeBackReason&, const ComeBackReason&) = default;
};

// Empty while the colony's turn in a walk under way is still to come or not finished.
[[nodiscard]] std::vector<ComeBackReason> reasons_to_come_back(const Walk& walk, const Stop& stop);

// What a walk has come to for one colony so far; every colony of a walk has exactly one.
enum class StopOutcome {
  Treated,   // and nothing speaks against it
  ComeBack,  // treated, and it needs another visit
  PassedOver,
  NotReached,  // the walk was closed before its turn
  UnderWay,    // still to do, under vapor or covered
};
[[nodiscard]] StopOutcome outcome_of(const Walk& walk, const Stop& stop);

// The colonies of a walk by their outcome: the numbers add up to all of them.
struct WalkTotals {
  std::size_t treated = 0, come_back = 0, passed_over = 0, not_reached = 0, under_way = 0;
  void add(StopOutcome outcome);
  [[nodiscard]] std::size_t sum() const {
    return treated + come_back + passed_over + not_reached + under_way;
  }
  friend bool operator==(const WalkTotals&, const WalkTotals&) = default;
};
[[nodiscard]] WalkTotals totals_of(const Walk& walk);

}  // namespace engine
