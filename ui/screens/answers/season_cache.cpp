#include "ui/screens/answers/season_cache.h"

#include <algorithm>
#include <utility>

#include "ui/screens/answers/answers.h"

namespace ui {

namespace {

bool alike(const engine::CourseWish& a, const engine::CourseWish& b) {
  return a.yard == b.yard && a.rounds == b.rounds && a.earliest == b.earliest &&
         a.latest == b.latest && a.gap_least == b.gap_least && a.gap_most == b.gap_most &&
         a.urgency == b.urgency;
}

// Rounds of the yard's open courses from today on.
std::vector<engine::Date> days_to_walk(const engine::Farm& farm, engine::YardId yard,
                                       engine::Date today) {
  std::vector<engine::Date> list;
  for (const auto& [id, course] : farm.courses) {
    if (course.yard != yard || course.ended) continue;
    for (const engine::RoundState& r : engine::rounds_of(farm, course))
      if (!r.walked && r.planned >= today) list.push_back(r.planned);
  }
  std::sort(list.begin(), list.end());
  return list;
}

}  // namespace

void SeasonCache::keep_to(const engine::Farm& farm, engine::Date on) const {
  if (kept_.entries == farm.log.size() && kept_.on == on) return;
  kept_ = {};
  kept_.entries = farm.log.size();
  kept_.on = on;
}

void SeasonCache::advance(const engine::Farm& farm, const Budget& budget) {
  const Wanted wanted = std::exchange(wanted_, {});
  if (kept_.entries != farm.log.size()) return;  // the next question begins anew
  for (int i = 0; wanted.trip && i < budget.walks; ++i) trip_.plan_one();
  for (int i = 0; wanted.walks && i < budget.walks; ++i)
    if (walks_.plan_one() && walks_.settled()) {  // what was proposed stood on assumed lengths
      kept_.plan.reset();
      kept_.missed.clear();
      kept_.losses.clear();
    }
  if (wanted.kills && kept_.kills) kept_.kills->go_on(farm, budget.courses);
}

const engine::YardCount* SeasonCache::yard(const engine::Farm& farm, engine::YardId yard,
                                           engine::Date on) const {
  keep_to(farm, on);
  return kept_.yards.if_any(yard, [&] { return engine::yard_count(farm, yard, on); });
}

const engine::YardAnswer& SeasonCache::answer(const engine::Farm& farm, engine::YardId id,
                                              engine::Date on) const {
  const engine::YardCount* count = yard(farm, id, on);
  return kept_.answers.of(id, [&] { return engine::yard_answer(farm, id, on, count); });
}

const engine::ColonyCount* SeasonCache::colony(const engine::Farm& farm, engine::ColonyId colony,
                                               engine::Date on) const {
  keep_to(farm, on);
  return kept_.colonies.if_any(colony, [&] { return engine::colony_count(farm, colony, on); });
}

const engine::Due& SeasonCache::due(const engine::Farm& farm, engine::Date on) const {
  keep_to(farm, on);
  return kept_.due.of(on, [&] { return engine::due_on(farm, on); });
}

const std::vector<engine::AgendaItem>& SeasonCache::agenda(
    const engine::Farm& farm, const std::vector<engine::MethodRules>& methods,
    engine::Date on) const {
  const engine::Due& of_today = due(farm, on);
  return kept_.agenda.of(on, [&] {
    return engine::agenda_of(
        farm, of_today, on, [&](engine::YardId id) { return yard(farm, id, on); }, methods);
  });
}

const Tonight& SeasonCache::tonight(const Look& look) const {
  using Slot = std::chrono::duration<std::int64_t, std::ratio<300>>;
  const engine::Due& today = due(look.farm, look.today());
  const std::chrono::sys_seconds slot = std::chrono::floor<Slot>(look.now.at);
  std::optional<Tonight>& kept = kept_.tonight;
  const bool old = !kept || kept_.tonight_at != slot || kept->zone != look.now.zone;
  wanted_.trip = true;
  if (!old && (kept->settled || !trip_.settled())) return *kept;
  if (old) {
    const Tonight first = tonight_of(look, today, {});
    // As many as a trip can hold.
    const std::size_t most = std::min(first.due.size(), engine::kTripExact);
    trip_.about(look, {first.due.begin(), first.due.begin() + static_cast<std::ptrdiff_t>(most)},
                window_minutes(first));
  }
  kept = tonight_of(look, today, trip_);
  kept->settled = trip_.settled();
  kept_.tonight_at = slot;
  return *kept;
}

const engine::PackList* SeasonCache::pack(
    const Look& look, const std::vector<const engine::Colony*>& colonies) const {
  keep_to(look.farm, look.today());
  const auto& rules = look.farm.setup.rules;
  if (!rules) return nullptr;
  std::vector<engine::ColonyId> ids;
  for (const engine::Colony* c : colonies) ids.push_back(c->id);
  return &kept_.packs.of(ids, [&] {
    const engine::PackAsk ask{
        engine::to_treat(look.farm, colonies, *rules), *rules, look.today(), {}};
    return engine::pack_for(look.farm, learned(look).battery, ask);
  });
}

const std::vector<engine::RoundState>& SeasonCache::rounds(const engine::Farm& farm,
                                                           const engine::Course& course,
                                                           engine::Date on) const {
  keep_to(farm, on);
  return kept_.rounds.of(course.id, [&] { return engine::rounds_of(farm, course); });
}

const std::vector<engine::YardMethodCheck>& SeasonCache::methods(
    const engine::Farm& farm, engine::YardId yard, const std::vector<engine::MethodRules>& methods,
    engine::Date on) const {
  keep_to(farm, on);
  return kept_.methods.of(yard, [&] {
    const auto air = engine::air_known(farm, yard, on);
    std::vector<engine::YardMethodCheck> list;
    for (const engine::MethodRules& m : methods)
      list.push_back(engine::check_yard(farm, yard, m, methods, on, air));
    return list;
  });
}

void SeasonCache::ask_for_walks(const Look& look) const {
  constexpr double kWholeSeal = 24 * 60;  // min; no window makes the seal shorter
  wanted_.walks = true;
  if (kept_.walks_asked) return;
  std::vector<engine::TripYard> all;
  for (const engine::Yard* yard : engine::yards(look.farm)) all.push_back({.yard = yard->id});
  walks_.about(look, all, kWholeSeal);
  kept_.walks_asked = true;
}

engine::Surrounding SeasonCache::with_walks(const Look& look, engine::Surrounding around) const {
  engine::EveningPace pace;
  pace.walk_min = [this](engine::YardId yard) {
    const engine::WalkLength* known = walks_.settled() ? walks_.of(yard) : nullptr;
    return known ? std::optional(known->minutes) : std::nullopt;
  };
  around.holds = engine::holds_by_minutes(look.farm, pace);
  return around;
}

const engine::Proposal& SeasonCache::plan(const Look& look,
                                          const std::vector<engine::CourseWish>& wishes,
                                          const engine::Surrounding& around) const {
  keep_to(look.farm, around.today);
  if (!wishes.empty()) ask_for_walks(look);
  const auto& before = kept_.wishes;
  if (!kept_.plan || kept_.insist != around.insist ||
      !std::equal(wishes.begin(), wishes.end(), before.begin(), before.end(), alike)) {
    kept_.plan = engine::propose_courses(look.farm, wishes, with_walks(look, around));
    kept_.wishes = wishes;
    kept_.insist = around.insist;
  }
  return *kept_.plan;
}

const engine::Proposal& SeasonCache::after_loss(const Look& look, engine::Date lost,
                                                const engine::Surrounding& around) const {
  keep_to(look.farm, around.today);
  ask_for_walks(look);
  return kept_.losses.of(
      lost, [&] { return engine::propose_after_loss(look.farm, lost, with_walks(look, around)); });
}

const engine::Proposal& SeasonCache::missed(const Look& look,
                                            const engine::Surrounding& around) const {
  keep_to(look.farm, around.today);
  const engine::Proposal& proposed = kept_.missed.of(around.today, [&] {
    return engine::propose_for_missed(look.farm, with_walks(look, around));
  });
  if (!proposed.empty()) ask_for_walks(look);
  return proposed;
}

const engine::Options* SeasonCache::options(const engine::Farm& farm, engine::YardId yard,
                                            engine::OptionsAsk ask) const {
  const bool whole = kills(farm, ask.today).whole();
  return kept_.options.if_any({yard, ask.coming_in, whole}, [&] {
    ask.kill = kill_of(farm, yard);
    return engine::course_options(farm, yard, ask);
  });
}

const engine::CourseOption* SeasonCache::planned(const engine::Farm& farm, engine::YardId yard,
                                                 engine::OptionsAsk ask) const {
  const AskedOf key{yard, ask.coming_in, kills(farm, ask.today).whole()};
  return kept_.planned.if_any(key, [&]() -> std::optional<engine::CourseOption> {
    const std::vector<engine::Date> days = days_to_walk(farm, yard, ask.today);
    if (days.empty()) return std::nullopt;
    ask.kill = kill_of(farm, yard);
    return engine::rounds_outlook(farm, yard, days, ask);
  });
}

const engine::Growth* SeasonCache::growth(const engine::Farm& farm, engine::YardId yard,
                                          engine::Date on) const {
  const bool whole = kills(farm, on).whole();
  return kept_.growth.if_any(
      {yard, whole}, [&] { return engine::yard_growth(farm, yard, on, kill_of(farm, yard)); });
}

const engine::Growth* SeasonCache::growth(const engine::Farm& farm, engine::ColonyId colony,
                                          engine::Date on) const {
  const bool whole = kills(farm, on).whole();
  return kept_.colony_growth.if_any({colony, whole}, [&] {
    const engine::YardId yard = farm.colonies.at(colony).yard;
    return engine::colony_growth(farm, colony, on, kill_of(farm, yard));
  });
}

const engine::CourseVerdict* SeasonCache::verdict(const engine::Farm& farm, engine::YardId yard,
                                                  engine::Date on) const {
  const engine::CourseOutcome* last = outcome(farm, yard, on);
  if (last == nullptr) return nullptr;
  return kept_.verdicts.if_any(yard,
                               [&] { return engine::course_verdict(farm, last->course, on); });
}

const engine::CourseOutcome* SeasonCache::outcome(const engine::Farm& farm, engine::YardId yard,
                                                  engine::Date on) const {
  keep_to(farm, on);
  return kept_.outcomes.if_any(yard, [&] { return engine::last_outcome(farm, yard, on); });
}

const engine::FailingYard* SeasonCache::failing(const engine::Farm& farm, engine::YardId yard,
                                                engine::Date on) const {
  keep_to(farm, on);
  return kept_.failing.if_any(yard, [&] { return engine::failing_yard(farm, yard, on); });
}

const engine::ComingIn* SeasonCache::coming_in(const engine::Farm& farm, engine::YardId yard,
                                               engine::Date on) const {
  keep_to(farm, on);
  return kept_.coming_in.if_any(yard, [&] { return engine::mites_coming_in(farm, yard, on); });
}

const engine::KillSurvey& SeasonCache::kills(const engine::Farm& farm, engine::Date on) const {
  keep_to(farm, on);
  if (!kept_.kills) kept_.kills.emplace(farm, on);
  wanted_.kills = true;
  return *kept_.kills;
}

engine::KillBand SeasonCache::kill_of(const engine::Farm& farm, engine::YardId yard) const {
  return kept_.kills->band(yard, engine::usual_dose_g(farm));
}

}  // namespace ui
