// What happens without treatment: the expected wash to the season's end, of the yard and of each of
// its colonies, when it crosses the threshold, and what waiting costs.
#include "ui/screens/counts/counts_growth.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/count_words.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::Growth;

// The model ends there: what lies above is drawn at the edge, and said.
constexpr double kMostShown = 15;

Chart chart_of(const Look& look, const Growth& g) {
  const auto from = static_cast<std::size_t>(std::max(0, days_from(g.from, g.today)));
  Series s{.name = "no treatment", .stroke = Stroke::Solid, .pattern = Pattern::Level};
  double top = g.threshold.per_100 * 1.5;
  for (std::size_t i = from; i < g.days.size(); ++i) {
    const auto x = static_cast<double>(i - from);
    const auto shown = [](double wash) { return std::min(wash, kMostShown); };
    s.line.push_back({x, shown(g.days[i].mid)});
    s.band.push_back({x, shown(g.days[i].low), shown(g.days[i].high)});
    top = std::max(top, shown(g.days[i].high));
  }
  Chart c;
  const int last = static_cast<int>(g.days.size() - from) - 1;
  c.x = day_scale(0, std::max(1, last), 6,
                  [&](int day) { return short_day(plus_days(g.today, day), look.today()); });
  c.y = number_scale(0, top, 5);
  c.x_title = "day";
  c.y_title = "expected mites on 100 bees (model)";
  c.threshold =
      Threshold{g.threshold.per_100, fmt::format("threshold {:.1f}", g.threshold.per_100)};
  if (g.crosses && *g.crosses > g.today)
    c.moments.push_back({static_cast<double>(days_from(g.today, *g.crosses)), Mark::Warning,
                         short_day(*g.crosses, look.today())});
  c.series.push_back(std::move(s));
  return c;
}

std::vector<std::string> growth_lines(const Look& look, const Growth& g) {
  std::vector<std::string> lines;
  for (const std::string& line : g.lines) lines.push_back(with_days(line, look.today()));
  lines.insert(lines.end(), g.assumptions.begin(), g.assumptions.end());
  return lines;
}

std::string day_or(const Look& look, const std::optional<engine::Date>& on, const Growth& g) {
  if (!on) return "not this season";
  return *on <= g.today ? std::string("now") : short_day(*on, look.today());
}

Row colony_growth_row(const Look& look, const engine::Colony& colony) {
  Row row{.title = colony.name};
  row.id = "growth " + engine::text(colony.id);
  const Growth* g = look.answers.season.growth(look.farm, colony.id, look.today());
  if (g == nullptr) {
    row.second = "never washed";
    return row;
  }
  row.second = fmt::format("over {:.1f}: {}; at worst {}, at best {}", g->threshold.per_100,
                           day_or(look, g->crosses, *g), day_or(look, g->crosses_first, *g),
                           day_or(look, g->crosses_last, *g));
  const bool now = g->crosses && *g->crosses <= g->today;
  if (now) row.tag = "OVER NOW", row.mark = Mark::Warning, row.tag_surface = Surface::Warning;
  return row;
}

void each_colony(Touch& t, const Rect& room, const Look& look, CountsView& v,
                 const engine::Yard& yard) {
  const auto all = engine::colonies_of(look.farm, yard.id);
  const auto row_at = [&](std::size_t i) {
    Row row = colony_growth_row(look, *all[i]);
    fit_row(t, row, room.w);
    return row;
  };
  list_rows(t, room, v.growth_page, all.size(), row_at, RowKind::Shown);
}

}  // namespace

void growth_page(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "Without treatment: " + yard.name, engine::kModelCaution, &back);
  if (back) v.page_of = CountsPage::Yard;
  if (!look.answers.season.kills(look.farm, look.today()).whole()) t.wake_in(0);
  const Growth* g = look.answers.season.growth(look.farm, yard.id, look.today());
  if (g == nullptr) return nothing_here(t, room, "Count first: there is nothing to start from.");
  const auto turn = [&](Rect& from) {
    const Rect act = cut_bottom(from, t.least_h(), t.gap());
    if (button(t, act, v.each ? "The yard" : "Each colony", {})) v.each = !v.each;
  };
  if (v.each) {
    turn(room);
    return each_colony(t, room, look, v, yard);
  }
  Rect side =
      t.portrait() ? cut_bottom(room, room.h * 0.46F, t.gap()) : cut_right(room, t.mm(70), t.gap());
  turn(side);
  paragraphs(t, side, v.growth_line, growth_lines(look, *g));
  chart(t, room, chart_of(look, *g));
}

}  // namespace ui
