// engine/method/method.h -- the rules of one way to treat, and whether they allow it now.
//
// The rules are data (assets/methods/*.json), generic by active ingredient, for a keeper to edit to
// the label in hand, which always decides. What a file does not say is not guessed: then the
// verdict is "check your label", never "yes".
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/season/brood.h"

namespace engine {

struct MethodRules : LabelLimits {
  std::string id;
  std::string name;
  std::string active;
  Method method = Method::Other;
  std::string moa_class;  // IRAC group: "19", "3A"; empty: not classified
  Supers supers = Supers::Unknown;
  int withdrawal_days = 0;
  std::string check_your_label;
  std::vector<std::string> cautions;
};

// The rules of vapor as the keeper's own label has them: honey supers, withdrawal, and all limits
// where the label says any.
[[nodiscard]] MethodRules with_label(MethodRules vapor, const LabelRules& label);

// The air of a day: as somebody noted it, or as it is expected at dusk.
struct AirKnown {
  Temperature air;
  bool expected = false;
  friend bool operator==(const AirKnown&, const AirKnown&) = default;
};

// What is known of one colony on a day.
struct MethodSituation {
  Date on{};
  bool supers_on = false;
  BroodState brood = BroodState::Unknown;
  std::optional<AirKnown> air;
  int uses_this_year = 0;
  std::optional<Date> last_use;
  const MethodRules* last_other =
      nullptr;  // the last treatment of any kind, when its rules are known
};
[[nodiscard]] MethodSituation situation_of(const Farm& farm, ColonyId colony,
                                           const MethodRules& rules,
                                           std::span<const MethodRules> all, Date on,
                                           std::optional<AirKnown> air);

enum class MethodVerdict { MayUse, CheckLabel, NotNow };
constexpr std::array<const char*, 3> enum_names(MethodVerdict) {
  return {"may_use", "check_label", "not_now"};
}
[[nodiscard]] const char* words(MethodVerdict v);

enum class MethodWhy {
  SupersOn,
  SupersUnknown,  // on, and the rules do not say whether they may be
  BroodPresent,
  BroodUnknown,
  TooCold,
  TooHot,
  TemperatureUnknown,
  UsedUp,
  TooSoon,
  TooManyRounds,
  NotKnown,      // limits that the rules do not say
  Strength,      // a least strength to hold the colony against
  Withdrawal,    // how long honey must wait; no obstacle
  SameClass,     // advice, no obstacle
  LeavesCapped,  // with brood it misses what is under caps; no obstacle
};
constexpr std::array<const char*, 15> enum_names(MethodWhy) {
  return {"supers_on",  "supers_unknown",  "brood_present",       "brood_unknown",
          "too_cold",   "too_hot",         "temperature_unknown", "used_up",
          "too_soon",   "too_many_rounds", "not_known",           "strength",
          "withdrawal", "same_class",      "leaves_capped"};
}
struct MethodReason {
  MethodWhy why = MethodWhy::Withdrawal;
  std::string line;                               // for the keeper, one sentence
  MethodVerdict verdict = MethodVerdict::MayUse;  // what it alone would come to
};
struct MethodCheck {
  MethodVerdict verdict = MethodVerdict::MayUse;
  std::vector<MethodReason> reasons;  // obstacles first
};
[[nodiscard]] MethodCheck check(const MethodRules& rules, const MethodSituation& now);

// All colonies of a yard, vapor by the label chosen in Setup: the worst verdict, each reason once,
// and how many colonies it holds for.
struct YardMethodCheck {
  MethodVerdict verdict = MethodVerdict::MayUse;
  struct Reason {
    MethodReason reason;
    std::vector<ColonyId> colonies;
  };
  std::vector<Reason> reasons;
  std::vector<ColonyId> may_use;
};
[[nodiscard]] YardMethodCheck check_yard(const Farm& farm, YardId yard, const MethodRules& rules,
                                         std::span<const MethodRules> all, Date on,
                                         std::optional<AirKnown> air);

// The air temperature noted when a walk was opened that day: in this yard, else in any; of several
// the last. None: nobody noted one.
[[nodiscard]] std::optional<Temperature> noted_air(const Farm& farm, YardId yard, Date on);

// What was noted that day, else what is expected of its evening; none: nobody said.
[[nodiscard]] std::optional<AirKnown> air_known(const Farm& farm, YardId yard, Date on);

// "IRAC group 19", "not classified".
[[nodiscard]] std::string class_words(const MethodRules& rules);

// One line that names the field that is wrong, or empty.
[[nodiscard]] std::string what_is_wrong(const MethodRules& rules);

}  // namespace engine
