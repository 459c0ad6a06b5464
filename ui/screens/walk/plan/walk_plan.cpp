// The plan of a walk that is not open yet: how long the entrances stay closed and when it ends, the
// evening as lanes, and how many cloths would be worth carrying.
#include "ui/screens/walk/plan/walk_plan.h"

#include <algorithm>
#include <cmath>

#include "engine/guide/last_light.h"
#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/plan/walk_lanes.h"
#include "ui/screens/walk/plan/walk_opening.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::to_translate;
using engine::tr;
using engine::translated;
namespace {

using engine::SealWish;

std::string clock(engine::Seconds s) { return engine::minutes_seconds(s); }

engine::Stamp end_of(const Look& look, const engine::OrderPlan& plan) {
  return engine::after(look.now, engine::Ms{std::llround(plan.finish_s * 1000)});
}

engine::Ending ending_of(const Look& look, const WalkView& view, const engine::Foreseen& f) {
  return engine::ending(end_of(look, f.plan),
                        engine::last_light(look.farm, *view.opening.yard, look.now));
}

// ---- how long the entrances stay closed ----

struct WishWords {
  SealWish wish;
  const char* label;
};
constexpr WishWords kWishes[] = {{SealWish::Whole, to_translate("Whole seal")},
                                 {SealWish::ByDusk, to_translate("Ready by dusk")},
                                 {SealWish::NoWaiting, to_translate("No waiting")}};

Choice choice_of(Touch& t, const Look& look, WalkView& view, const PlanAsk& ask,
                 const WishWords& w) {
  Choice c{.label = translated(w.label), .second = tr("working it out")};
  c.enabled = w.wish != SealWish::ByDusk || ask.light_s;
  if (!c.enabled) c.second = tr("the yard's place is not known, or it gets light");
  if (!c.enabled) return c;
  const engine::Foreseen* f = look.answers.plans.if_ready(ask, w.wish);
  if (f == nullptr) return t.wake_in(0), c;
  c.second = tr("{}, closed {}", ending_of(look, view, *f).words, clock(f->seal));
  return c;
}

void draw_wishes(Touch& t, const Rect& rect, const Look& look, WalkView& view, const PlanAsk& ask,
                 SealWish in_force) {
  std::vector<Choice> list;
  for (const WishWords& w : kWishes) {
    list.push_back(choice_of(t, look, view, ask, w));
    list.back().chosen = w.wish == in_force;
  }
  const auto tapped = choices(t, rect, list, t.portrait() ? 1 : 3, 24);
  if (tapped) view.opening.seal = kWishes[*tapped].wish;
}

// ---- lanes ----

void draw_plan(Touch& t, Rect room, const Look& look, WalkView& view, const PlanAsk& ask) {
  const engine::Foreseen* f = look.answers.plans.if_ready(ask, view.opening.seal);
  const float high = t.portrait() ? 3 * t.mm(19) + 2 * t.gap() : t.mm(21);
  draw_wishes(t, cut_top(room, high, t.gap()), look, view, ask,
              f ? f->wish : view.opening.seal.value_or(SealWish::Whole));
  if (f == nullptr) return t.wake_in(0), remark(t, room, tr("Working out the plan")), void();
  const engine::Walk walk = engine::walk_to_be(walk_opening(look, view), look.now);
  Lanes plan = lanes_of_plan(look, walk, engine::visits_of(walk, f->plan.steps));
  if (ask.light_s && *ask.light_s / 60 < plan.x.high)
    plan.moments.push_back({*ask.light_s / 60, Mark::Clock, tr("dusk")});
  draw_lanes(t, room, view.opening.list_page, plan);
}

// ---- how many cloths ----

Chart table_chart(const std::vector<engine::ClothRow>& rows, const std::string& name,
                  double (*value)(const engine::ClothRow&)) {
  Chart c;
  Series line{name, Stroke::Solid};
  double most = 1;
  for (const engine::ClothRow& r : rows) {
    line.line.push_back({static_cast<double>(r.cloths), value(r)});
    most = std::max(most, value(r));
  }
  c.x = number_scale(1, kClothsInTable, 7);
  c.y = number_scale(0, most, 5);
  c.x_title = tr("cloths");
  c.y_title = tr("minutes");
  c.series.push_back(std::move(line));
  return c;
}

// The keeper's own number, and the best buy where it is another.
void mark_numbers(Chart& c, int own, const std::optional<engine::BestBuy>& buy) {
  c.moments.push_back({static_cast<double>(own), Mark::Dot, tr("yours")});
  if (buy && buy->cloths > own)
    c.moments.push_back({static_cast<double>(buy->cloths), Mark::Check, tr("best buy")});
}

void draw_cloths(Touch& t, Rect room, const Look& look, const PlanAsk& ask) {
  const auto& rows_known = look.answers.plans.cloths(ask);
  const bool all = rows_known.size() == kClothsInTable;
  if (!all) t.wake_in(0);
  const int own = ask.walk.cloths;
  const auto buy = all ? engine::best_buy(rows_known, own) : std::nullopt;
  std::string said = tr("Working it out: {} of {}.", rows_known.size(), kClothsInTable);
  if (all) said = tr("You carry {}, more than the table holds.", own);
  if (buy) said = engine::words(*buy, own);
  notice(t, room, said, Mark::Cloth, Surface::Panel);
  if (rows_known.empty()) return;
  room.y += t.mm(1), room.h -= t.mm(1);
  const std::vector<Rect> cells = t.portrait() ? rows(room, 2, t.gap()) : columns(room, 2, t.gap());
  Chart ends = table_chart(rows_known, tr("whole seal"),
                           [](const engine::ClothRow& r) { return r.finish_s / 60; });
  Chart seals = table_chart(rows_known, tr("no waiting"),
                            [](const engine::ClothRow& r) { return r.longest_seal_s / 60; });
  ends.y_title = tr("minutes the walk takes");
  seals.y_title = tr("minutes closed");
  seals.threshold = Threshold{ask.walk.seal_s / 60, tr("whole seal")};
  seals.y = number_scale(0, ask.walk.seal_s / 60 * 1.1, 5);
  for (Chart* c : {&ends, &seals}) mark_numbers(*c, own, buy);
  chart(t, cells[0], ends);
  chart(t, cells[1], seals);
}

}  // namespace

std::optional<PlanAsk> plan_ask(const Look& look, const WalkView& view) {
  if (!look.answers.planned) return std::nullopt;
  const engine::WalkOpened o = walk_opening(look, view);
  auto c =
      engine::case_of(look.farm, engine::walk_to_be(o, look.now), learned(look).dwell, look.now);
  if (!c) return std::nullopt;
  PlanAsk ask{.walk = std::move(*c), .least = o.rules.seal_least};
  if (const auto dusk = engine::last_light(look.farm, *view.opening.yard, look.now))
    ask.light_s = std::chrono::duration<double>(dusk->at - look.now.at).count();
  return ask;
}

void add_plan(const Look& look, const WalkView& view, engine::WalkOpened& opened) {
  const auto ask = plan_ask(look, view);
  if (!ask) return;
  const engine::Foreseen& f = look.answers.plans.foreseen(*ask, view.opening.seal);
  opened.planned = engine::visits_of(engine::walk_to_be(opened, look.now), f.plan.steps);
  opened.rules.seal_goal = std::max(f.seal, opened.rules.seal_least);
}

void draw_plan_button(Touch& t, const Rect& rect, const Look& look, WalkView& view) {
  const auto ask = plan_ask(look, view);
  std::string label = tr("Plan"), second = tr("needs cloth and vaporizer");
  Surface surface = Surface::Button;
  if (ask) {
    const engine::Foreseen* f = look.answers.plans.if_ready(*ask, view.opening.seal);
    second = tr("working it out");
    if (f == nullptr) t.wake_in(0);
    if (f) {
      const engine::Ending ends = ending_of(look, view, *f);
      second = ends.words;
      if (f->shortened) label = tr("Plan: closed {}", clock(f->seal));
      if (ends.late) surface = Surface::Warning;
    }
  }
  if (!button(t, rect, label,
              {.enabled = ask.has_value(), .surface = surface, .second = second, .id = "plan"}))
    return;
  view.opening.page = OpenPage::Plan;
  view.opening.list_page = 0;
}

void walk_plan(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  const bool cloths = view.opening.page == OpenPage::PlanCloths;
  WalkPage page = walk_page(t, room, cloths ? tr("How many cloths?") : tr("Plan of the walk"));
  const DialogButton buttons[] = {{tr("Done"), Surface::Chosen},
                                  {cloths ? tr("The evening") : tr("How many cloths?")}};
  const auto counted = walk_footer(t, page.footer, view, buttons);
  if (counted == 0) view.opening.page = OpenPage::Start;
  if (counted == 1) view.opening.page = cloths ? OpenPage::Plan : OpenPage::PlanCloths;
  const auto ask = plan_ask(look, view);
  if (!ask)
    return notice(t, page.room, tr("No plan without a cloth and a vaporizer."), Mark::Warning,
                  Surface::Warning);
  if (cloths)
    draw_cloths(t, page.room, look, *ask);
  else
    draw_plan(t, page.room, look, view, *ask);
}

}  // namespace ui
