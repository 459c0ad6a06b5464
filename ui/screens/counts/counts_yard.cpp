#include "ui/screens/counts/counts_yard.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/rules/regions.h"
#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/counts/count_dots.h"
#include "ui/screens/words/count_words.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::mites::Decision;

const char* small_word(Decision d) {
  if (d == Decision::Treat) return "treat";
  return d == Decision::Watch ? "watch" : "count more";
}

Mark mark_of(const engine::ColonyCount& c) {
  const Mark mark = look_of(c.decision, c.by_point_estimate).mark;
  return mark == Mark::Open ? Mark::Dot : mark;
}

DotPlot plot_of(const Look& look, const engine::YardCount& y) {
  DotPlot plot;
  double most = y.threshold.per_100 * 1.5;
  for (const engine::ColonyCount& c : y.colonies) {
    most = std::max(most, c.estimate.high);
    plot.rows.push_back({std::string(engine::colony_name(look.farm, c.spell.colony)),
                         c.estimate.low, c.estimate.per_100, c.estimate.high, mark_of(c),
                         small_word(c.decision)});
  }
  plot.x = number_scale(0, most, 6);
  plot.x_title = "mites on 100 bees, 95 % limits";
  plot.threshold =
      Threshold{y.threshold.per_100, fmt::format("threshold {:.1f}", y.threshold.per_100)};
  return plot;
}

std::vector<std::string> yard_lines(const Look& look, const engine::YardCount& y) {
  std::vector<std::string> lines;
  const engine::Date today = look.today();
  if (const auto* in = look.answers.season.coming_in(look.farm, y.yard, today))
    lines.push_back(with_days(in->line, today));
  const auto* verdict = look.answers.season.verdict(look.farm, y.yard, today);
  if (verdict != nullptr && days_from(verdict->rounds.back(), today) <= engine::kAfterMost)
    lines.push_back(with_days(verdict->headline.line, today));
  lines.push_back(y.sentence);
  const std::vector<std::string> missing = sample_lines(look, y.yard);
  lines.insert(lines.end(), missing.begin(), missing.end());
  lines.insert(lines.end(), y.advice.begin(), y.advice.end());
  for (const engine::ColonyCount& c : y.colonies)
    for (const std::string& caution : c.cautions)
      lines.push_back(std::string(engine::colony_name(look.farm, c.spell.colony)) + ": " + caution);
  lines.push_back(engine::words(y.threshold));
  lines.emplace_back("What others publish for this time of the year, beside yours:");
  for (std::string& line : engine::region_lines(y.threshold.season)) lines.push_back(line);
  return lines;
}

// Upright, a counted yard needs only the room of its buttons: the words stand behind Why?.
Rect cut_side(const Touch& t, Rect& room, bool counted, bool samples) {
  if (!t.portrait()) return cut_right(room, t.mm(66), t.gap());
  if (!counted) return cut_bottom(room, room.h * 0.44F, t.gap());
  const float line = t.least_h() + t.gap();
  return cut_bottom(room, t.mm(18) + line * (samples ? 2 : 1), t.gap());
}

}  // namespace

void counts_yard(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard) {
  bool back = false;
  const engine::YardCount* y = look.answers.season.yard(look.farm, yard.id, look.today());
  head(t, room, yard.name,
       y ? fmt::format("{} of {} counted", y->colonies.size(),
                       engine::counted(y->in_yard, "colony", "colonies"))
         : "no bees were washed here yet",
       &back);
  if (back) v = {};
  if (y != nullptr) {
    const engine::YardAnswer& answer = look.answers.season.answer(look.farm, yard.id, look.today());
    draw_verdict(t, cut_top(room, verdict_high(t), t.gap()), look_of(answer, *y), answer.numbers);
  }
  Rect side = cut_side(t, room, y != nullptr, !sample_lines(look, yard.id).empty());
  const bool any = !engine::colonies_of(look.farm, yard.id).empty();
  const Rect act =
      t.portrait() ? cut_bottom(side, t.mm(18), t.gap()) : cut_bottom(side, t.mm(22), t.gap());
  if (button(t, act, "Count a colony", {.enabled = any, .surface = Surface::Action, .large = true}))
    v.page_of = CountsPage::Colonies;
  const std::vector<std::string> missing = sample_lines(look, yard.id);
  if (!missing.empty() && button(t, cut_bottom(side, t.least_h(), t.gap()), "Enter the sample", {}))
    ask_for_samples(v);
  if (y == nullptr && !missing.empty()) {
    paragraphs(t, side, v.advice_page, missing);
    return nothing_here(t, room, "Counted, but the samples are missing:\nnothing is decided yet.");
  }
  if (y == nullptr) {
    paragraphs(t, side, v.advice_page,
               std::vector<std::string>{
                   "Wash about 300 bees from the brood nest of each colony: half a cup, common "
                   "practice.",
                   "A published plan counts 300 bees in each of 8 colonies, whatever the size of "
                   "the yard (Lee and others 2010)."});
    nothing_here(t, room, any ? "Not counted yet." : "No colonies in this yard.");
    return;
  }
  const Rect line = cut_bottom(side, t.least_h(), t.gap());
  const auto cells = columns(line, t.portrait() ? 2 : 1, t.gap());
  if (button(t, cells[0], "Without treatment", {}))
    v.page_of = CountsPage::Growth, v.growth_line = 0, v.each = false;
  if (!t.portrait()) paragraphs(t, side, v.advice_page, yard_lines(look, *y));
  if (t.portrait() && button(t, cells[1], v.why ? "The colonies" : "Why?", {})) v.why = !v.why;
  if (t.portrait() && v.why)
    paragraphs(t, room, v.advice_page, yard_lines(look, *y));
  else
    dot_plot(t, room, v.plot_page, plot_of(look, *y));
}

}  // namespace ui
