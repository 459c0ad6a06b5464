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
};
constexpr std::array<const char*, 8> enum_names(ComeBackWhy) {
  return {"flying_heavy", "short_dwell", "short_seal",   "passed_over",
          "mishap",       "not_reached", "left_covered", "clock_unsure"};
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

}  // namespace engine
