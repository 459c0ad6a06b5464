#include "ui/screens/courses/calendar_evening.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/calendar/evenings.h"
#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::LossWhy;
constexpr LossWhy kWhy[] = {LossWhy::Rain,       LossWhy::Wind,   LossWhy::TooCold,
                            LossWhy::BeesFlying, LossWhy::NoTime, LossWhy::KitFailed};

std::vector<std::string> evening_lines(const Look& look, const std::vector<RoundOn>& rounds,
                                       const engine::Proposal& p, bool lost) {
  std::vector<std::string> lines;
  if (lost) lines.emplace_back("This evening was lost; its rounds have moved.");
  for (const RoundOn& r : rounds)
    lines.push_back(fmt::format("{}: round {} of {}{}", look.farm.yards.at(r.yard).name, r.number,
                                r.of, r.walked ? ", " + r.said : std::string()));
  if (rounds.empty() && !lost) lines.emplace_back("No round lies on this evening.");
  if (p.empty()) return lines;
  lines.emplace_back("If it is lost, the rest moves so:");
  const auto moved = proposal_lines(p, look.today());
  lines.insert(lines.end(), moved.begin(), moved.end());
  return lines;
}

}  // namespace

Ask evening_page(Touch& t, Rect room, const Look& look, CoursesView& v, engine::Date on) {
  const std::vector<RoundOn> rounds = rounds_on(look, on);
  const bool lost = look.farm.evenings.lost.contains(on);
  const bool open =
      std::any_of(rounds.begin(), rounds.end(), [](const RoundOn& r) { return !r.walked; });
  bool back = false;
  head(t, room, day_words(on), from_today(on, look.today()), &back);
  const engine::Proposal none;
  const engine::Proposal& p =
      open && !lost ? look.answers.season.after_loss(look, on, around(look)) : none;
  const engine::Body loss = engine::EveningLost{on, v.why, "", p.courses};
  const bool free = engine::evening_free(look.farm.evenings, on);
  const engine::Body change =
      engine::EveningChanged{on, !free, free ? "no time" : "time after all"};
  const Act list[] = {
      {.label = "Evening lost",
       .second = open ? "move the rest as shown" : "no round to move",
       .enabled = open && !p.empty() && why_not(look, loss) == engine::Refusal::None,
       .surface = Surface::Action,
       .big = true},
      {.label = free ? "Not free" : "Free",
       .second = "only this evening",
       .enabled = !lost && why_not(look, change) == engine::Refusal::None}};
  const auto tapped = acts(t, room, list);
  if (open && !lost) {
    std::vector<std::string> names;
    for (const LossWhy why : kWhy) names.emplace_back(engine::words(why));
    const auto now = std::find(std::begin(kWhy), std::end(kWhy), v.why) - std::begin(kWhy);
    const Rect at = cut_top(room, choice_height(t, names, room.w), t.gap());
    if (const auto why = choice(t, at, names, static_cast<int>(now))) v.why = kWhy[*why];
  }
  paragraphs(t, room, v.line_page, evening_lines(look, rounds, p, lost));
  if (back || tapped) v.page_of = CoursesPage::Calendar;
  if (!tapped) return {};
  return *tapped == 0 ? loss : change;
}

Ask free_evenings(Touch& t, Rect room, const Look& look, CoursesView& v) {
  bool back = false;
  head(t, room, "Free evenings", "of every week; rounds are planned on these", &back);
  if (back) v.page_of = CoursesPage::Calendar;
  const auto& weekly = look.farm.evenings.weekly;
  std::vector<Phrase> days;
  for (int i = 0; i < 7; ++i) {
    const auto day = static_cast<engine::Weekday>(i);
    days.push_back({engine::words(day),
                    !weekly || std::find(weekly->begin(), weekly->end(), day) != weekly->end()});
  }
  int page = 0;
  const auto tapped = phrases(t, room, page, days);
  if (!tapped) return {};
  days[*tapped].on = !days[*tapped].on;
  engine::FreeEveningsSet set;
  for (int i = 0; i < 7; ++i)
    if (days[static_cast<std::size_t>(i)].on)
      set.weekdays.push_back(static_cast<engine::Weekday>(i));
  return engine::Body{set};
}

}  // namespace ui
