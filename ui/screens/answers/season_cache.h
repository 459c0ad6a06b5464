// ui/screens/answers/season_cache.h -- what counts decide and what is proposed, once an entry and a
// day.
//
// The engine's answers take longer than a frame may. They are kept here until the log grows or the
// day turns; a reference stays good until the next question after that.
#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "engine/calendar/propose.h"
#include "engine/kit/packing_list.h"
#include "engine/method/method.h"
#include "engine/rounds/due.h"
#include "engine/season/counts.h"
#include "engine/season/kills.h"
#include "engine/season/outlook.h"
#include "engine/season/verdict.h"
#include "ui/screens/answers/tonight.h"

namespace ui {

class SeasonCache {
 public:
  // nullptr: never washed.
  [[nodiscard]] const engine::YardCount* yard(const engine::Farm& farm, engine::YardId yard,
                                              engine::Date on);
  [[nodiscard]] const engine::ColonyCount* colony(const engine::Farm& farm, engine::ColonyId colony,
                                                  engine::Date on);
  [[nodiscard]] const engine::Due& due(const engine::Farm& farm, engine::Date on);

  // Anew every five minutes: a trip does not begin in the past. While it is not settled, each
  // question plans one walk more.
  [[nodiscard]] const Tonight& tonight(const Look& look);
  // What a walk through these colonies takes, beside what the kit has; nullptr: no label is chosen.
  [[nodiscard]] const engine::PackList* pack(const Look& look,
                                             const std::vector<const engine::Colony*>& colonies);

  [[nodiscard]] const std::vector<engine::RoundState>& rounds(const engine::Farm& farm,
                                                              const engine::Course& course,
                                                              engine::Date on);
  // One check for each of `methods`, in their order, in the air that was noted that day.
  [[nodiscard]] const std::vector<engine::YardMethodCheck>& methods(
      const engine::Farm& farm, engine::YardId yard,
      const std::vector<engine::MethodRules>& methods, engine::Date on);

  // An evening holds what the walks take as they are planned. The first answers stand on assumed
  // lengths; while there is something to propose, each question plans one walk more, and when all
  // are known the answer is worked out anew. `around.holds` is not asked.
  // The last wishes asked for are kept; ids of new courses are those of the first question.
  [[nodiscard]] const engine::Proposal& plan(const Look& look,
                                             const std::vector<engine::CourseWish>& wishes,
                                             const engine::Surrounding& around);
  [[nodiscard]] const engine::Proposal& after_loss(const Look& look, engine::Date lost,
                                                   const engine::Surrounding& around);
  [[nodiscard]] const engine::Proposal& missed(const Look& look, const engine::Surrounding& around);

  // nullptr: never counted. The kill is the yard's own, where it was learned; the rest of `ask` but
  // `coming_in` must not change between questions of one day.
  [[nodiscard]] const engine::Options* options(const engine::Farm& farm, engine::YardId yard,
                                               engine::OptionsAsk ask);
  // Without treatment; nullptr: never counted.
  [[nodiscard]] const engine::Growth* growth(const engine::Farm& farm, engine::YardId yard,
                                             engine::Date on);
  [[nodiscard]] const engine::Growth* growth(const engine::Farm& farm, engine::ColonyId colony,
                                             engine::Date on);
  // What options() says for the rounds that are planned and not walked; nullptr: none.
  [[nodiscard]] const engine::CourseOption* planned(const engine::Farm& farm, engine::YardId yard,
                                                    engine::OptionsAsk ask);
  // Of the yard's last course that was counted before and after; nullptr: none. The outcome alone
  // is far less work.
  [[nodiscard]] const engine::CourseVerdict* verdict(const engine::Farm& farm, engine::YardId yard,
                                                     engine::Date on);
  [[nodiscard]] const engine::CourseOutcome* outcome(const engine::Farm& farm, engine::YardId yard,
                                                     engine::Date on);
  [[nodiscard]] const engine::FailingYard* failing(const engine::Farm& farm, engine::YardId yard,
                                                   engine::Date on);
  // What was learned so far: each question looks a little further.
  [[nodiscard]] const engine::KillSurvey& kills(const engine::Farm& farm, engine::Date on);

 private:
  void keep_to(const engine::Farm& farm, engine::Date on);
  void learn_walks(const Look& look);
  [[nodiscard]] engine::Surrounding with_walks(const Look& look, engine::Surrounding around) const;

  std::size_t entries_ = 0;
  engine::Date on_{};
  std::map<engine::YardId, std::optional<engine::YardCount>> yards_;
  std::map<engine::ColonyId, std::optional<engine::ColonyCount>> colonies_;
  std::optional<engine::Due> due_;
  std::optional<Tonight> tonight_;
  std::chrono::sys_seconds tonight_at_{};
  TripLengths lengths_, walks_;  // of the trip, of the calendar; both stay when the log grows
  bool walks_asked_ = false;
  std::map<std::vector<engine::ColonyId>, engine::PackList> packs_;
  std::map<engine::CourseId, std::vector<engine::RoundState>> rounds_;
  std::map<engine::YardId, std::vector<engine::YardMethodCheck>> methods_;
  std::vector<engine::CourseWish> wishes_;
  std::optional<engine::Proposal> plan_, missed_;
  std::map<engine::Date, engine::Proposal> losses_;
  using AskedOf = std::pair<engine::YardId, int>;  // and the mites that come in
  std::map<AskedOf, std::optional<engine::Options>> options_;
  std::map<AskedOf, std::optional<engine::CourseOption>> planned_;
  std::map<engine::YardId, std::optional<engine::Growth>> growth_;
  std::map<engine::ColonyId, std::optional<engine::Growth>> colony_growth_;
  std::map<engine::YardId, std::optional<engine::CourseVerdict>> verdicts_;
  std::map<engine::YardId, std::optional<engine::CourseOutcome>> outcomes_;
  std::map<engine::YardId, std::optional<engine::FailingYard>> failing_;
  std::optional<engine::KillSurvey> kills_;
};

}  // namespace ui
