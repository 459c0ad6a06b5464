#include "ui/screens/answers/season_cache.h"

#include <algorithm>
#include <utility>

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

// What `map` keeps under the key, asked for when nothing is kept yet; nullptr: the answer was none.
template <class Map, class Ask>
auto asked_once(Map& map, const typename Map::key_type& key, Ask ask) {
  auto at = map.find(key);
  if (at == map.end()) at = map.emplace(key, ask()).first;
  return at->second ? &std::as_const(*at->second) : nullptr;
}

}  // namespace

void SeasonCache::keep_to(const engine::Farm& farm, engine::Date on) {
  if (entries_ == farm.log.size() && on_ == on) return;
  TripLengths lengths = std::move(lengths_), walks = std::move(walks_);
  *this = {};
  lengths_ = std::move(lengths), walks_ = std::move(walks);
  entries_ = farm.log.size();
  on_ = on;
}

const engine::YardCount* SeasonCache::yard(const engine::Farm& farm, engine::YardId yard,
                                           engine::Date on) {
  keep_to(farm, on);
  return asked_once(yards_, yard, [&] { return engine::yard_count(farm, yard, on); });
}

const engine::ColonyCount* SeasonCache::colony(const engine::Farm& farm, engine::ColonyId colony,
                                               engine::Date on) {
  keep_to(farm, on);
  return asked_once(colonies_, colony, [&] { return engine::colony_count(farm, colony, on); });
}

const engine::Due& SeasonCache::due(const engine::Farm& farm, engine::Date on) {
  keep_to(farm, on);
  if (!due_) due_ = engine::due_on(farm, on);
  return *due_;
}

const Tonight& SeasonCache::tonight(const Look& look) {
  using Slot = std::chrono::duration<std::int64_t, std::ratio<300>>;
  const engine::Due& today = due(look.farm, look.today());
  const std::chrono::sys_seconds slot = std::chrono::floor<Slot>(look.now.at);
  const bool old = !tonight_ || tonight_at_ != slot || tonight_->zone != look.now.zone;
  // The frame that asks first is drawn with what is assumed.
  if (!old && !tonight_->settled) lengths_.plan_one();
  if (!old && (tonight_->settled || !lengths_.settled())) return *tonight_;
  if (old) {
    const Tonight first = tonight_of(look, today, {});
    // As many as a trip can hold.
    const std::size_t most = std::min(first.due.size(), engine::kTripExact);
    lengths_.about(look, {first.due.begin(), first.due.begin() + static_cast<std::ptrdiff_t>(most)},
                   window_minutes(first));
  }
  tonight_ = tonight_of(look, today, lengths_);
  tonight_->settled = lengths_.settled();
  tonight_at_ = slot;
  return *tonight_;
}

const engine::PackList* SeasonCache::pack(const Look& look,
                                          const std::vector<const engine::Colony*>& colonies) {
  keep_to(look.farm, look.today());
  const auto& rules = look.farm.setup.rules;
  if (!rules) return nullptr;
  std::vector<engine::ColonyId> ids;
  for (const engine::Colony* c : colonies) ids.push_back(c->id);
  auto at = packs_.find(ids);
  if (at == packs_.end()) {
    const engine::PackAsk ask{
        engine::to_treat(look.farm, colonies, *rules), *rules, look.today(), {}};
    at = packs_.emplace(ids, engine::pack_for(look.farm, learned(look).battery, ask)).first;
  }
  return &at->second;
}

const std::vector<engine::RoundState>& SeasonCache::rounds(const engine::Farm& farm,
                                                           const engine::Course& course,
                                                           engine::Date on) {
  keep_to(farm, on);
  auto at = rounds_.find(course.id);
  if (at == rounds_.end()) at = rounds_.emplace(course.id, engine::rounds_of(farm, course)).first;
  return at->second;
}

const std::vector<engine::YardMethodCheck>& SeasonCache::methods(
    const engine::Farm& farm, engine::YardId yard, const std::vector<engine::MethodRules>& methods,
    engine::Date on) {
  keep_to(farm, on);
  auto at = methods_.find(yard);
  if (at != methods_.end()) return at->second;
  const auto air = engine::air_known(farm, yard, on);
  std::vector<engine::YardMethodCheck> list;
  for (const engine::MethodRules& m : methods)
    list.push_back(engine::check_yard(farm, yard, m, methods, on, air));
  return methods_.emplace(yard, std::move(list)).first->second;
}

void SeasonCache::learn_walks(const Look& look) {
  constexpr double kWholeSeal = 24 * 60;  // min; no window makes the seal shorter
  if (!walks_asked_) {
    std::vector<engine::TripYard> all;
    for (const engine::Yard* yard : engine::yards(look.farm)) all.push_back({.yard = yard->id});
    walks_.about(look, all, kWholeSeal);
    walks_asked_ = true;
  } else if (walks_.plan_one() && walks_.settled()) {
    plan_.reset(), missed_.reset(), losses_.clear();
  }
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
                                          const engine::Surrounding& around) {
  keep_to(look.farm, around.today);
  if (!wishes.empty()) learn_walks(look);
  if (!plan_ || !std::equal(wishes.begin(), wishes.end(), wishes_.begin(), wishes_.end(), alike)) {
    plan_ = engine::propose_courses(look.farm, wishes, with_walks(look, around));
    wishes_ = wishes;
  }
  return *plan_;
}

const engine::Proposal& SeasonCache::after_loss(const Look& look, engine::Date lost,
                                                const engine::Surrounding& around) {
  keep_to(look.farm, around.today);
  learn_walks(look);
  auto at = losses_.find(lost);
  if (at == losses_.end())
    at =
        losses_.emplace(lost, engine::propose_after_loss(look.farm, lost, with_walks(look, around)))
            .first;
  return at->second;
}

const engine::Proposal& SeasonCache::missed(const Look& look, const engine::Surrounding& around) {
  keep_to(look.farm, around.today);
  if (missed_ && !missed_->empty()) learn_walks(look);
  if (!missed_) missed_ = engine::propose_for_missed(look.farm, with_walks(look, around));
  return *missed_;
}

const engine::Options* SeasonCache::options(const engine::Farm& farm, engine::YardId yard,
                                            engine::OptionsAsk ask) {
  keep_to(farm, ask.today);
  return asked_once(options_, {yard, ask.coming_in}, [&] {
    ask.kill = engine::yard_kill(farm, yard, ask.today);
    return engine::course_options(farm, yard, ask);
  });
}

const engine::CourseOption* SeasonCache::planned(const engine::Farm& farm, engine::YardId yard,
                                                 engine::OptionsAsk ask) {
  keep_to(farm, ask.today);
  return asked_once(planned_, {yard, ask.coming_in}, [&]() -> std::optional<engine::CourseOption> {
    const std::vector<engine::Date> days = days_to_walk(farm, yard, ask.today);
    if (days.empty()) return std::nullopt;
    ask.kill = engine::yard_kill(farm, yard, ask.today);
    return engine::rounds_outlook(farm, yard, days, ask);
  });
}

const engine::Growth* SeasonCache::growth(const engine::Farm& farm, engine::YardId yard,
                                          engine::Date on) {
  keep_to(farm, on);
  return asked_once(growth_, yard, [&] { return engine::yard_growth(farm, yard, on); });
}

const engine::Growth* SeasonCache::growth(const engine::Farm& farm, engine::ColonyId colony,
                                          engine::Date on) {
  keep_to(farm, on);
  return asked_once(colony_growth_, colony,
                    [&] { return engine::colony_growth(farm, colony, on); });
}

const engine::CourseVerdict* SeasonCache::verdict(const engine::Farm& farm, engine::YardId yard,
                                                  engine::Date on) {
  const engine::CourseOutcome* last = outcome(farm, yard, on);
  if (last == nullptr) return nullptr;
  return asked_once(verdicts_, yard,
                    [&] { return engine::course_verdict(farm, last->course, on); });
}

const engine::CourseOutcome* SeasonCache::outcome(const engine::Farm& farm, engine::YardId yard,
                                                  engine::Date on) {
  keep_to(farm, on);
  return asked_once(outcomes_, yard, [&] { return engine::last_outcome(farm, yard, on); });
}

const engine::FailingYard* SeasonCache::failing(const engine::Farm& farm, engine::YardId yard,
                                                engine::Date on) {
  keep_to(farm, on);
  return asked_once(failing_, yard, [&] { return engine::failing_yard(farm, yard, on); });
}

const engine::KillSurvey& SeasonCache::kills(const engine::Farm& farm, engine::Date on) {
  constexpr std::size_t kOfAFrame = 4;  // colonies: about a millisecond
  keep_to(farm, on);
  if (!kills_) kills_.emplace(farm, on);
  kills_->go_on(farm, kOfAFrame);
  return *kills_;
}

}  // namespace ui
