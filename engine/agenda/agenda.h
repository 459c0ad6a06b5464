// engine/agenda/agenda.h -- what wants doing on a day, the most urgent first: the one answer that
// Today, Counts, Courses and `duskwalk due` give.
//
// The order: bees behind a cloth that was left on, walks still open; yards whose counts say treat
// and that have no rounds planned; rounds due and overdue; colonies to come back to, dead-outs to
// mark lost; strips that must come out; counts; supers and honey that must wait. Rounds to come
// close the list.
#pragma once
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/method/ends.h"
#include "engine/rounds/due.h"
#include "engine/season/counts.h"

namespace engine {

// What a yard's counts ask for.
enum class YardNeed {
  NeverCounted,
  Sample,      // counted, but no count is whole: the bees of the samples are missing
  Plan,        // too many mites, or one colony has, and no rounds are planned
  Planned,     // likewise, and rounds are
  CountAfter,  // it was treated since the count, which says nothing of today
  CountMore,   // not decided
  Watch,
};
constexpr std::array<const char*, 7> enum_names(YardNeed) {
  return {"never_counted", "sample", "plan", "planned", "count_after", "count_more", "watch"};
}
struct YardAnswer {
  YardNeed need = YardNeed::NeverCounted;
  // The numbers that decide: "6.3 in 100, threshold 3"; of one colony "B2: 6.3 in 100, ...".
  std::string numbers;
  std::vector<ColonyId> colonies{};  // Plan and Planned for single colonies alone: those
  bool sure = true;                  // false: at or over the threshold, but too few bees to be sure
};
// `count` is yard_count() of that day; nullptr: there is none.
[[nodiscard]] YardAnswer yard_answer(const Farm& farm, YardId yard, Date on,
                                     const YardCount* count);

enum class AgendaKind {
  Shut,  // a cloth was left on: the bees need air
  OpenWalk,
  Treat,      // YardNeed::Plan
  Round,      // due or overdue
  ComeBack,   // the colonies of one yard
  DeadOut,    // one colony, to be marked lost
  StripsOut,  // due, overdue or to come
  PostCount,  // due or overdue
  Sample,     // a count without its sample, the colonies of one yard
  Count,
  Wait,    // no supers, or no honey, before a day
  Coming,  // a round
};
constexpr std::array<const char*, 12> enum_names(AgendaKind) {
  return {"shut",       "open_walk",  "treat",  "round", "come_back", "dead_out",
          "strips_out", "post_count", "sample", "count", "wait",      "coming"};
}

struct AgendaItem {
  AgendaKind kind = AgendaKind::Count;
  YardId yard;
  std::string about;                 // what follows the yard's name: "round 2 of 4, 3 days overdue"
  std::optional<CourseId> course{};  // rounds, counts after a course
  std::optional<WalkId> walk{};      // shut hives: the one that left the cloth; open walks
  std::vector<ColonyId> colonies{};  // those it is about, where not about the whole yard
  std::size_t place = 0;  // rounds, come-backs, counts, samples: the first in the list of Due
  std::optional<TreatmentEnd> end{};  // strips that come out, and what waits
};
// "Fern Hollow: 6.3 in 100, threshold 3: plan rounds".
[[nodiscard]] std::string line_of(const AgendaItem& item, const Farm& farm);

// yard_count() of the day, by whoever keeps it; nullptr: none.
using CountOf = std::function<const YardCount*(YardId)>;
// `due` is due_on() of the farm and the day. Without the rules of the methods nobody knows when
// strips come out.
[[nodiscard]] std::vector<AgendaItem> agenda_of(const Farm& farm, const Due& due, Date on,
                                                const CountOf& count_of,
                                                std::span<const MethodRules> methods = {});
// The counts worked out anew.
[[nodiscard]] std::vector<AgendaItem> agenda_of(const Farm& farm, const Due& due, Date on,
                                                std::span<const MethodRules> methods = {});
[[nodiscard]] std::vector<AgendaItem> agenda_on(const Farm& farm, Date on,
                                                std::span<const MethodRules> methods = {});

}  // namespace engine
