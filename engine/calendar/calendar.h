// engine/calendar/calendar.h -- on which evenings the rounds of all yards fall.
//
// Pure and deterministic: the same question gives the same calendar. What it promises, in this
// order: only free evenings, none holding more than it can; no two rounds of a yard closer than the
// label allows; then gaps within the asked ones, early beginnings, few evenings. Gaps from 4 to 7
// days count as equal: the number of rounds decides, the interval hardly does.
#pragma once
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "engine/calendar/evenings.h"

namespace engine {

inline constexpr int kGapLeast = 4, kGapMost = 7;  // days, equal within

// The rounds of one yard that are still to be placed.
struct RoundsAsk {
  YardId yard;
  CourseId course;
  bool is_new = true;           // not yet in the farm
  std::vector<Date> walked;     // rounds behind us, as they were planned; stay as they are
  std::optional<Date> last_on;  // when this yard was last treated, whatever for
  int rounds = 4;               // still to place
  Date earliest{};
  std::optional<Date> latest;  // a window that closes: all rounds no later
  int label_gap = 1;           // days; never less
  int gap_least = kGapLeast;   // days; asked
  int gap_most = kGapMost;
  double urgency = 1;  // above 1: each day that it begins later weighs more
};

struct CalendarAsk {
  std::vector<RoundsAsk> yards;
  std::map<Date, std::vector<YardId>> taken;  // evenings that hold yards already, which stay
  std::function<bool(Date)> free;
  EveningHolds holds;
  int horizon_days = 150;  // how far behind the earliest day to look
};

struct PlacedRounds {
  CourseDates dates;  // with the rounds walked; `yard` given for a new course
  YardId yard;
  int longest_gap = 0;           // days, among the rounds placed and from the last one walked
  std::vector<std::string> why;  // what could not be kept, one line each; empty: all was
};

struct Calendar {
  std::vector<PlacedRounds> yards;   // in the order asked; those with no room for a round left out
  std::vector<std::string> no_room;  // one line a yard that found no evenings
  int evenings = 0;                  // that hold a round of this calendar
};
[[nodiscard]] Calendar plan_calendar(const Farm& farm, const CalendarAsk& ask);

}  // namespace engine
