// engine/method/ends.h -- what a treatment ends with: strips that must come out, supers and honey
// that must wait.
//
// By the method's rules (days in the hive, days before supers, from giving or from removal) and the
// days before honey that were written down with it; of vapor by the label of its walk. What is not
// known is left out: the label in the hand decides.
#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "engine/method/method.h"

namespace engine {

enum class EndKind { StripsOut, SupersWait, HoneyWaits };
constexpr std::array<const char*, 3> enum_names(EndKind) {
  return {"strips_out", "supers_wait", "honey_waits"};
}

struct TreatmentEnd {
  EndKind kind = EndKind::StripsOut;
  YardId yard;
  std::string product;
  Date on{};  // strips: out by then; supers and honey: not before then
  std::vector<ColonyId> colonies{};
  // Supers and honey: the strips are not noted as out, so `on` is the earliest it can be.
  bool from_removal_to_come = false;
  Date given{};  // the day of the treatment
};
// Own choice: strips that nobody noted as out are asked for so long.
inline constexpr int kDaysStripsAsked = 180;

// As of that day, soonest first: strips that are not noted as out (days_given says so), supers and
// honey that still wait. Colonies of one yard with the same product, given on
// the same day, with the same end stand together.
[[nodiscard]] std::vector<TreatmentEnd> treatment_ends(const Farm& farm,
                                                       std::span<const MethodRules> methods,
                                                       Date on);

// "strips out by 2026-09-10 (3 colonies): Thymol", "no honey for people before ...".
[[nodiscard]] std::string words_of(const TreatmentEnd& end);

}  // namespace engine
