#include "ui/screens/words/count_words.h"

#include <fmt/format.h>

#include "engine/mites/board.h"
#include "engine/rounds/due.h"
#include "engine/season/brood.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

using engine::CountMethod;
using engine::mites::Decision;

// Mites in a colony for each that falls in a day: what the model says of a summer colony with
// brood, and of one without, where mites die at 0.002 to 0.006 a day on bees. No published value.
constexpr double kFactorBrood = 42, kFactorBroodless = 500;
// A round kills for days, and its dead go on falling: so long a board shows the kill. Own choice,
// the length of a worker cap.
constexpr int kDaysAfterRound = 12;

std::vector<std::string> board_lines(const Look& look, const CountDraft& d,
                                     const engine::Colony& colony) {
  const engine::Date on = plus_days(look.today(), -d.days_ago);
  const bool broodless = engine::brood_on(colony.brood, on) == engine::BroodState::None;
  const auto e = engine::mites::estimate(engine::mites::BoardCount{*d.mites, d.hours / 24.0},
                                         broodless ? kFactorBroodless : kFactorBrood);
  std::vector<std::string> lines = {
      fmt::format("{:.1f} a day: about {:.0f} mites in the colony, anything from {:.0f} to {:.0f} "
                  "(model, {}).",
                  e.per_day, e.colony, e.low, e.high, broodless ? "no brood" : "with brood"),
      "A board only hints. Wash bees before you decide."};
  const auto treated = last_treated(look, colony.id);
  if (treated && days_from(*treated, on) >= 0 && days_from(*treated, on) <= kDaysAfterRound)
    lines.push_back(fmt::format("Treated on {}: a board now shows the kill, not the load.",
                                short_day(*treated, look.today())));
  return lines;
}

}  // namespace

void ask_for_samples(CountsView& view) {
  view.page_of = CountsPage::Sample;
  start_number(view.typing, 0);
}

std::vector<std::string> sample_lines(const Look& look, engine::YardId yard) {
  std::vector<std::string> lines;
  for (const engine::Colony* colony : engine::colonies_of(look.farm, yard))
    for (const engine::DueSample& s : engine::samples_missing(look.farm, colony->id, look.today()))
      lines.push_back(
          fmt::format("{}, {}: {} {}?", colony->name, short_day(s.taken.on, look.today()),
                      engine::counted(static_cast<std::size_t>(s.taken.mites), "mite", "mites"),
                      of_bees(s.taken.method) ? "on how many bees" : "in how many hours"));
  return lines;
}

bool of_bees(CountMethod m) { return m == CountMethod::AlcoholWash || m == CountMethod::SugarRoll; }

DecisionLook look_of(Decision d, bool by_point_estimate) {
  if (d == Decision::Treat) return {"TREAT", Mark::Warning, Surface::Warning};
  if (d == Decision::Watch && by_point_estimate) return {"WATCH", Mark::Dot, Surface::Panel};
  if (d == Decision::Watch) return {"WATCH", Mark::Check, Surface::Good};
  return {"COUNT MORE", Mark::Open, Surface::Panel};
}

DecisionLook look_of(const engine::YardAnswer& answer, const engine::YardCount& count) {
  switch (answer.need) {
    case engine::YardNeed::Plan:
      return answer.sure ? look_of(Decision::Treat, false)
                         : DecisionLook{"OVER", Mark::Warning, Surface::Warning};
    case engine::YardNeed::Planned:
      return {"PLANNED", Mark::Clock, Surface::Active};
    case engine::YardNeed::CountAfter:
      return {"COUNT AFTER", Mark::Dot, Surface::Panel};
    default:
      return look_of(count.decision, count.by_point_estimate);
  }
}

std::vector<std::string> draft_lines(const Look& look, const CountDraft& d,
                                     const engine::Colony& colony) {
  if (!d.mites) return {"Type how many mites you counted."};
  const std::string mites = engine::counted(static_cast<std::size_t>(*d.mites), "mite", "mites");
  if (d.method == CountMethod::StickyBoard) return board_lines(look, d, colony);
  if (!of_bees(d.method)) return {mites};
  const auto e = engine::mites::estimate(engine::mites::Wash{*d.mites, d.bees});
  return {fmt::format("{} on {} bees: {}.", mites, d.bees, engine::words(e))};
}

}  // namespace ui
