#include "ui/screens/courses/courses_verdict.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/roles.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

// Fewer mites after than before, in percent; what lies below -100 stands at the edge.
DotPlot plot_of(const Look& look, const engine::CourseVerdict& verdict) {
  DotPlot plot;
  double low = 0;
  for (const engine::ColonyVerdict& c : verdict.colonies) {
    low = std::min(low, std::max(-100.0, c.effect.low));
    Interval row{std::string(engine::colony_name(look.farm, c.colony)), c.effect.low,
                 c.effect.percent, c.effect.high};
    if (c.failed) row.mark = Mark::Warning, row.word = "failed";
    plot.rows.push_back(row);
  }
  plot.x = number_scale(low, 100, 5);
  plot.x_title =
      verdict.untreated > 0 ? "efficacy in %, 95 % limits" : "% fewer mites, 95 % limits";
  plot.threshold = Threshold{0, "no change"};
  return plot;
}

std::string kill_words(const Look& look, const std::string& whose, const engine::KillsLearned& k,
                       bool whole) {
  const engine::KillBand band = engine::band_of(k, engine::usual_dose_g(look.farm), {});
  return fmt::format(
      "One round {} kills {:.0f} to {:.0f} % of the mites in reach, most likely {:.0f} % (learned "
      "from {}{}; eight of ten chances).",
      whose, 100 * band.low, 100 * band.high, 100 * band.mid,
      engine::counted(k.courses, "course", "courses"), whole ? "" : " so far");
}

// Of this yard, else of all; and of each vaporizer where there are several to compare.
void tell_kills(Touch& t, const Look& look, engine::YardId yard, std::vector<std::string>& lines) {
  const engine::KillSurvey& kills = look.answers.season.kills(look.farm, look.today());
  if (!kills.whole()) t.wake_in(0);
  if (const auto here = kills.of_yard(yard))
    lines.push_back(kill_words(look, "here", *here, kills.whole()));
  else if (const auto all = kills.of_outfit())
    lines.push_back(kill_words(look, "of yours", *all, kills.whole()));
  const auto by_vaporizer = kills.by_vaporizer();
  if (by_vaporizer.size() < 2) return;
  for (const auto& [vaporizer, learned] : by_vaporizer)
    lines.push_back(kill_words(look, "with " + engine::kit_called(look.farm, vaporizer), learned,
                               kills.whole()));
}

std::vector<std::string> verdict_lines(Touch& t, const Look& look,
                                       const engine::CourseVerdict& verdict) {
  std::vector<std::string> lines = verdict.headline.reasons;
  if (verdict.coming_in && lines.empty()) lines.push_back(verdict.coming_in->line);
  lines.push_back(verdict.sentence);
  for (const engine::ColonyVerdict& c : verdict.colonies)
    if (c.failed) lines.push_back(c.sentence);
  if (const auto* failing = look.answers.season.failing(look.farm, verdict.yard, look.today()))
    lines.push_back(failing->sentence);
  if (const auto* y = look.answers.season.yard(look.farm, verdict.yard, look.today()))
    lines.push_back("Now: " + y->sentence);
  tell_kills(t, look, verdict.yard, lines);
  lines.insert(lines.end(), verdict.cautions.begin(), verdict.cautions.end());
  return lines;
}

// The verdict in the largest type in which it leaves room for what it stands on.
void draw_headline(Touch& t, Rect& room, const engine::CourseVerdict& verdict,
                   const std::string& line) {
  const bool worked = verdict.headline.result == engine::CourseResult::Worked;
  const Surface surface = verdict.failed ? Surface::Warning
                          : worked       ? Surface::Good
                                         : Surface::Panel;
  const Mark mark = verdict.failed ? Mark::Warning : worked ? Mark::Check : Mark::Dot;
  const float side = t.mm(12), width = room.w - side - step(t) - t.mm(6);
  const float large = text_height(t, line, width, size_of(Role::Headline));
  const Role role = large <= t.mm(t.portrait() ? 50 : 36) ? Role::Headline : Role::Title;
  const float tall = text_height(t, line, width, size_of(role)) + 2;
  const Rect box = cut_top(room, std::max(tall, side) + t.mm(4), t.gap());
  t.fill(box, surface, t.mm(0.3F));
  Rect inner = inset(box, t.mm(3), t.mm(2));
  draw_mark(t.draw(), mark, cut_left(inner, side, step(t)), t.theme()[surface].ink);
  say(t, inner, line, role);
}

}  // namespace

void verdict_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "Did it work: " + yard.name, "the counts before and after, and nothing else",
       &back);
  if (back) v.page_of = CoursesPage::Yard;
  const engine::CourseVerdict* verdict =
      look.answers.season.verdict(look.farm, yard.id, look.today());
  if (verdict == nullptr)
    return nothing_here(t, room,
                        "No colony was washed both before and after the rounds yet. The count "
                        "after is best two weeks behind the last round.");
  draw_headline(t, room, *verdict, with_days(verdict->headline.line, look.today()));
  const Rect act = cut_bottom(room, t.least_h(), t.gap());
  if (button(t, act, v.why_told ? "The colonies" : "Why?", {})) {
    v.why_told = !v.why_told;
    v.line_page = 0;
  }
  if (!v.why_told) {
    const auto n = static_cast<float>(verdict->colonies.size());
    room.h = std::min(room.h, t.mm(24 + 14 * n));  // few colonies leave no empty panel
    return dot_plot(t, room, v.page, plot_of(look, *verdict));
  }
  std::vector<std::string> lines = verdict_lines(t, look, *verdict);
  for (std::string& one : lines) one = with_days(std::move(one), look.today());
  paragraphs(t, room, v.line_page, lines);
}

}  // namespace ui
