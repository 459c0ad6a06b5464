#include "ui/screens/courses/courses_outlook.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "engine/calendar/propose.h"
#include "engine/method/obey.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::CourseOption;
using engine::WashBand;

// Mites a day into each colony. Nobody counts them: steps to see what they would do. Own choice.
constexpr int kComingIn[] = {0, 2, 5, 10, 20, 40};

// The headline is the field end of the kill, the high line of the band.
Series with_rounds(const std::vector<WashBand>& days) {
  Series s{.name = "with rounds", .stroke = Stroke::Solid, .pattern = Pattern::Upright};
  for (std::size_t i = 0; i < days.size(); ++i) {
    s.line.push_back({static_cast<double>(i), days[i].high});
    s.band.push_back({static_cast<double>(i), days[i].low, days[i].high});
  }
  return s;
}

Series untreated(const std::vector<WashBand>& days) {
  Series s{.name = "no treatment", .stroke = Stroke::Dotted, .pattern = Pattern::Level};
  for (std::size_t i = 0; i < days.size(); ++i) {
    s.line.push_back({static_cast<double>(i), days[i].mid});
    s.band.push_back({static_cast<double>(i), days[i].low, days[i].high});
  }
  return s;
}

double top_of(const std::vector<WashBand>& days) {
  double top = 0;
  for (const WashBand& d : days) top = std::max(top, d.high);
  return top;
}

Chart chart_of(const Look& look, const engine::Options& all, const CourseOption& option) {
  Chart c;
  const int last = static_cast<int>(std::max(all.untreated.size(), option.days.size())) - 1;
  c.x = day_scale(0, last, 6,
                  [&](int day) { return short_day(plus_days(look.today(), day), look.today()); });
  c.series = {untreated(all.untreated), with_rounds(option.days)};
  double top = std::max(top_of(all.untreated), top_of(option.days));
  c.x_title = "day", c.y_title = "expected mites on 100 bees (model)";
  if (const auto* y = look.answers.season.yard(look.farm, all.yard, look.today())) {
    c.threshold =
        Threshold{y->threshold.per_100, fmt::format("threshold {:.1f}", y->threshold.per_100)};
    top = std::max(top, y->threshold.per_100);
  }
  c.y = number_scale(0, top, 5);
  return c;
}

std::vector<CourseOption> choices(CoursesView& v, const Look& look, const engine::Yard& yard,
                                  const engine::Options& all) {
  const engine::OptionsAsk ask = options_ask(look, v);
  if (const CourseOption* planned = look.answers.season.planned(look.farm, yard.id, ask))
    return {*planned};
  return all.list;
}

void choose(Touch& t, const Rect& room, CoursesView& v, const std::vector<CourseOption>& list,
            std::size_t chosen, engine::Date today) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < list.size(); ++i) {
    Row row{.title = with_days(list[i].title, today)};
    row.id = fmt::format("option {}", i);
    row.chosen = i == chosen;
    if (list[i].kind != engine::OptionKind::WithBrood)
      row.tag = "FIRST", row.mark = Mark::Dot;
    else if (list[i].advised)
      row.tag = "FEWEST", row.mark = Mark::Dot;
    fit_row(t, row, room.w);
    rows.push_back(row);
  }
  if (const auto tapped = list_rows(t, room, v.plan_page, rows)) v.option = *tapped;
}

// "25 to 48 % fewer mites", "41 % more to 3 % fewer mites": below zero there are fewer.
std::string more_or_fewer(double from, double to) {
  const auto word = [](double change) { return change > 0 ? "more" : "fewer"; };
  const bool alike = (from > 0) == (to > 0);
  return fmt::format("{:.0f} {}to {:.0f} % {} mites", std::abs(from),
                     alike ? std::string() : fmt::format("% {} ", word(from)), std::abs(to),
                     word(to));
}

// Each tap a step further, then none again.
void ask_coming_in(Touch& t, const Rect& room, CoursesView& v) {
  const int now = kComingIn[v.coming_in];
  const std::string second =
      now == 0 ? std::string("none; tap for what if") : fmt::format("{} a day, a guess", now);
  if (button(t, room, "Mites from outside", {.second = second}))
    v.coming_in = (v.coming_in + 1) % std::size(kComingIn);
}

// Side by side, always both; the end that field trials show comes first.
void versus(Touch& t, const Rect& room, const CourseOption& option) {
  const auto cells = columns(room, 2, t.gap());
  const engine::Prospect &field = option.field, &exposed = option.exposed;
  std::string none = "not known", today = "not known";
  if (field.fewer_than_untreated && exposed.fewer_than_untreated)
    none = more_or_fewer(-*field.fewer_than_untreated, -*exposed.fewer_than_untreated);
  if (field.change_from_today && exposed.change_from_today)
    today = more_or_fewer(*field.change_from_today, *exposed.change_from_today);
  const std::string lines[2][2] = {{"versus no treatment:", none}, {"versus today:", today}};
  for (std::size_t i = 0; i < 2; ++i) told(t, cells[i], "", lines[i]);
}

}  // namespace

engine::OptionsAsk options_ask(const Look& look, const CoursesView& v) {
  engine::OptionsAsk ask;
  ask.coming_in = kComingIn[v.coming_in];
  ask.today = look.today();
  if (const engine::MethodRules* vapor = around(look).vapor) {
    if (vapor->most_rounds && *vapor->most_rounds > 0) ask.most_rounds = *vapor->most_rounds;
    ask.label_gap = std::max(1, vapor->min_interval_days.value_or(1));
  }
  if (look.farm.setup.rules && look.farm.setup.rules->limits) {
    const engine::LabelLimits& l = *look.farm.setup.rules->limits;
    ask.label_gap = engine::label_gap(look.farm);
    for (const auto& most : {l.most_rounds, l.uses_per_year})
      if (most && *most > 0) ask.most_rounds = std::min(ask.most_rounds, *most);
  }
  return ask;
}

void outlook_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "What to expect: " + yard.name, engine::kModelCaution, &back);
  if (back) v.page_of = CoursesPage::Yard;
  if (!look.answers.season.kills(look.farm, look.today()).whole()) t.wake_in(0);
  const engine::Options* all =
      look.answers.season.options(look.farm, yard.id, options_ask(look, v));
  const auto list = all ? choices(v, look, yard, *all) : std::vector<CourseOption>{};
  if (list.empty()) return nothing_here(t, room, "Count first: there is nothing to start from.");
  const std::size_t chosen = std::min(v.option, list.size() - 1);
  Rect side =
      t.portrait() ? cut_bottom(room, room.h * 0.45F, t.gap()) : cut_right(room, t.mm(66), t.gap());
  ask_coming_in(t, cut_bottom(side, t.mm(15), t.gap()), v);
  if (list.size() > 1) {
    choose(t, side, v, list, chosen, look.today());
    const auto& said = list[chosen].lines;  // the first says what stands side by side anyway
    if (said.size() > 1)
      told(t, cut_bottom(room, t.mm(t.portrait() ? 26 : 37), t.gap()), "",
           std::span(said).subspan(1));
  } else {
    told(t, side, list[chosen].title, list[chosen].lines);
  }
  versus(t, cut_bottom(room, t.mm(t.portrait() ? 16 : 21), t.gap()), list[chosen]);
  chart(t, room, chart_of(look, *all, list[chosen]));
}

}  // namespace ui
