// ui/screens/answers/season_cache.h -- what counts decide and what is proposed, once an entry and a
// day.
//
// The engine's answers take longer than a frame may. They are kept here until the log grows or the
// day turns; a reference stays good until the next question after that. Where one answer stands on
// several walks, each planned for itself, it is first given with assumed lengths; advance() plans
// the walks between frames, and the answer follows.
#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "engine/agenda/agenda.h"
#include "engine/calendar/propose.h"
#include "engine/kit/packing_list.h"
#include "engine/method/method.h"
#include "engine/rounds/due.h"
#include "engine/season/counts.h"
#include "engine/season/kills.h"
#include "engine/season/outlook.h"
#include "engine/season/verdict.h"
#include "ui/screens/answers/budget.h"
#include "ui/screens/answers/memo.h"
#include "ui/screens/answers/tonight.h"

namespace ui {

class SeasonCache {
 public:
  // Goes on with what was asked since the last time and is not finished.
  void advance(const engine::Farm& farm, const Budget& budget);

  // nullptr: never washed.
  [[nodiscard]] const engine::YardCount* yard(const engine::Farm& farm, engine::YardId yard,
                                              engine::Date on) const;
  [[nodiscard]] const engine::ColonyCount* colony(const engine::Farm& farm, engine::ColonyId colony,
                                                  engine::Date on) const;
  [[nodiscard]] const engine::Due& due(const engine::Farm& farm, engine::Date on) const;
  [[nodiscard]] const engine::YardAnswer& answer(const engine::Farm& farm, engine::YardId yard,
                                                 engine::Date on) const;
  [[nodiscard]] const std::vector<engine::AgendaItem>& agenda(
      const engine::Farm& farm, const std::vector<engine::MethodRules>& methods,
      engine::Date on) const;

  // Anew every five minutes: a trip does not begin in the past. Not settled while walks are still
  // to be planned.
  [[nodiscard]] const Tonight& tonight(const Look& look) const;
  // What a walk through these colonies takes, beside what the kit has; nullptr: no label is chosen.
  [[nodiscard]] const engine::PackList* pack(
      const Look& look, const std::vector<const engine::Colony*>& colonies) const;

  [[nodiscard]] const std::vector<engine::RoundState>& rounds(const engine::Farm& farm,
                                                              const engine::Course& course,
                                                              engine::Date on) const;
  // One check for each of `methods`, in their order, in the air that was noted that day.
  [[nodiscard]] const std::vector<engine::YardMethodCheck>& methods(
      const engine::Farm& farm, engine::YardId yard,
      const std::vector<engine::MethodRules>& methods, engine::Date on) const;

  // An evening holds what the walks take as they are planned; the first answers stand on assumed
  // lengths. `around.holds` is not asked. The last wishes asked for are kept; ids of new
  // courses are those of the first question.
  [[nodiscard]] const engine::Proposal& plan(const Look& look,
                                             const std::vector<engine::CourseWish>& wishes,
                                             const engine::Surrounding& around) const;
  [[nodiscard]] const engine::Proposal& after_loss(const Look& look, engine::Date lost,
                                                   const engine::Surrounding& around) const;
  [[nodiscard]] const engine::Proposal& missed(const Look& look,
                                               const engine::Surrounding& around) const;

  // nullptr: never counted. The kill is what was learned so far; once all courses have taught it
  // the answer is worked out anew. The rest of `ask` but
  // `coming_in` must not change between questions of one day.
  [[nodiscard]] const engine::Options* options(const engine::Farm& farm, engine::YardId yard,
                                               engine::OptionsAsk ask) const;
  // Without treatment; nullptr: never counted.
  [[nodiscard]] const engine::Growth* growth(const engine::Farm& farm, engine::YardId yard,
                                             engine::Date on) const;
  [[nodiscard]] const engine::Growth* growth(const engine::Farm& farm, engine::ColonyId colony,
                                             engine::Date on) const;
  // What options() says for the rounds that are planned and not walked; nullptr: none.
  [[nodiscard]] const engine::CourseOption* planned(const engine::Farm& farm, engine::YardId yard,
                                                    engine::OptionsAsk ask) const;
  // Of the yard's last course that was counted before and after; nullptr: none. The outcome alone
  // is far less work.
  [[nodiscard]] const engine::CourseVerdict* verdict(const engine::Farm& farm, engine::YardId yard,
                                                     engine::Date on) const;
  [[nodiscard]] const engine::CourseOutcome* outcome(const engine::Farm& farm, engine::YardId yard,
                                                     engine::Date on) const;
  [[nodiscard]] const engine::FailingYard* failing(const engine::Farm& farm, engine::YardId yard,
                                                   engine::Date on) const;
  // More mites than the yard's colonies can have bred; nullptr: not so.
  [[nodiscard]] const engine::ComingIn* coming_in(const engine::Farm& farm, engine::YardId yard,
                                                  engine::Date on) const;
  // What was learned so far; whole() says whether that is all.
  [[nodiscard]] const engine::KillSurvey& kills(const engine::Farm& farm, engine::Date on) const;

 private:
  // And the mites that come in; and whether all courses had taught their kill by then.
  using AskedOf = std::tuple<engine::YardId, int, bool>;
  template <class Key, class Value>
  using MaybeMemo = Memo<Key, std::optional<Value>>;

  // Good for this log and this day.
  struct Kept {
    std::size_t entries = 0;
    engine::Date on{};
    Memo<engine::Date, engine::Due> due;
    Memo<engine::YardId, engine::YardAnswer> answers;
    Memo<engine::Date, std::vector<engine::AgendaItem>> agenda;
    MaybeMemo<engine::YardId, engine::YardCount> yards;
    MaybeMemo<engine::ColonyId, engine::ColonyCount> colonies;
    Memo<std::vector<engine::ColonyId>, engine::PackList> packs;
    Memo<engine::CourseId, std::vector<engine::RoundState>> rounds;
    Memo<engine::YardId, std::vector<engine::YardMethodCheck>> methods;
    MaybeMemo<AskedOf, engine::Options> options;
    MaybeMemo<AskedOf, engine::CourseOption> planned;
    MaybeMemo<std::pair<engine::YardId, bool>, engine::Growth> growth;  // likewise
    MaybeMemo<std::pair<engine::ColonyId, bool>, engine::Growth> colony_growth;
    MaybeMemo<engine::YardId, engine::CourseVerdict> verdicts;
    MaybeMemo<engine::YardId, engine::CourseOutcome> outcomes;
    MaybeMemo<engine::YardId, engine::FailingYard> failing;
    MaybeMemo<engine::YardId, engine::ComingIn> coming_in;
    std::optional<Tonight> tonight;
    std::chrono::sys_seconds tonight_at{};
    bool walks_asked = false;
    std::vector<engine::CourseWish> wishes;
    bool insist = false;
    std::optional<engine::Proposal> plan;
    Memo<engine::Date, engine::Proposal> missed;
    Memo<engine::Date, engine::Proposal> losses;
    std::optional<engine::KillSurvey> kills;
  };
  // What was asked since the last advance().
  struct Wanted {
    bool trip = false, walks = false, kills = false;
  };

  void keep_to(const engine::Farm& farm, engine::Date on) const;
  void ask_for_walks(const Look& look) const;
  [[nodiscard]] engine::KillBand kill_of(const engine::Farm& farm, engine::YardId yard) const;
  [[nodiscard]] engine::Surrounding with_walks(const Look& look, engine::Surrounding around) const;

  mutable Kept kept_;
  mutable Wanted wanted_;
  mutable TripLengths trip_, walks_;  // of the trip, of the calendar; both stay when the log grows
};

}  // namespace ui
