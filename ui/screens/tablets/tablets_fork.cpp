// A fork on the page of the other tablets: what each side holds, and what of it is to count.
#include "ui/screens/tablets/tablets_fork.h"

#include <fmt/format.h>

#include "engine/farm/forks.h"
#include "engine/farm/queries.h"
#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/reasons.h"

namespace ui {

namespace {

constexpr std::size_t kMostSides = 4;  // with a button of their own
const std::string kForkDecisions[] = {"both happened", "one was only tried out",
                                      "entered again after a restore", "a copy taken by mistake",
                                      "asked the other keeper"};

// "Wed 19 Aug 2026 20:17 to 21:05"
std::string when(const engine::ForkSide& side) {
  const auto day = [](const engine::Stamp& at) { return day_words(engine::local_date(at)); };
  const std::string begin = day(side.begin) + " " + engine::clock_time(side.begin);
  if (side.entries == 1) return begin;
  const bool one_day = day(side.begin) == day(side.end);
  return begin + " to " + (one_day ? "" : day(side.end) + " ") + engine::clock_time(side.end);
}

std::string fork_side_words(const Look& look, const engine::EntryRef& first) {
  const engine::ForkSide side = engine::side_of(look.farm, first.device);
  const engine::EntryHandle e = engine::find_entry(look.farm, first);
  return fmt::format("{}: {}, {}. First: {}", engine::short_device(side.id),
                     engine::counted(side.entries, "entry", "entries"), when(side),
                     engine::describe(e->event.body, look.farm));
}

std::vector<std::string> fork_lines(const Look& look, const engine::Contradicted& c) {
  std::vector<std::string> lines;
  for (const engine::EntryRef& first : c.sides) lines.push_back(fork_side_words(look, first));
  lines.emplace_back("What a side struck stays struck.");
  return lines;
}

// Strikes the side and settles the fork in one act.
Entries strike_all(const Look& look, const engine::Contradicted& c, std::size_t side,
                   std::size_t wanted, std::string why) {
  Entries all{engine::strikes_of_side(look.farm, c.sides[side].device, why, look.device, look.now)};
  if (const std::size_t stay = wanted - all.bodies.size(); stay > 0)
    why += fmt::format("; {} of {} stayed: others stand on them", stay, wanted);
  all.bodies.emplace_back(engine::ContradictionSettled{c.sides, why});
  return all;
}

std::vector<Act> list_of(const TabletsView& v, const engine::Contradicted& c, bool decided) {
  const std::string first = decided ? "" : "choose what holds first";
  std::vector<Act> list = {{.label = "Settle it, both count",
                            .second = first,
                            .enabled = decided,
                            .surface = Surface::Action,
                            .big = true}};
  for (std::size_t i = 0; i < c.sides.size() && i < kMostSides; ++i) {
    const bool any = v.to_strike[i] > 0;
    list.push_back({.label = fmt::format("Strike all {} of {}", v.to_strike[i],
                                         engine::short_device(c.sides[i].device)),
                    .second = any ? first : "nothing left to strike",
                    .enabled = decided && any,
                    .surface = Surface::Warning,
                    .hold = true});
  }
  return list;
}

}  // namespace

void count_sides(const Look& look, TabletsView& v, const engine::Contradicted& c) {
  v.to_strike.clear();
  for (const engine::EntryRef& first : c.sides)
    v.to_strike.push_back(engine::to_strike(look.farm, first.device));
}

Ask fork_page(Touch& t, Rect room, const Look& look, TabletsView& v,
              const engine::Contradicted& c) {
  if (writing_own_words(t, v.typing, "What holds?", v.own_words)) return {};
  bool back = false;
  const auto* side = engine::find_branch(look.farm.branches, c.sides.front().device);
  head(t, room, "What holds?",
       "A copy of tablet " + engine::short_device(side->device) + " was written on too", &back);
  const std::string why = sentence_of(v.said, v.own_words);
  const auto tapped = acts(t, room, list_of(v, c, !why.empty()));
  paragraphs(t, cut_top(room, room.h * 0.5F, t.gap()), v.side_page, fork_lines(look, c));
  reasons(t, room, kForkDecisions, v.page, v.said, v.own_words, v.typing);
  if (back || tapped) v.open.reset();
  if (!tapped) return {};
  if (*tapped == 0) return engine::Body{engine::ContradictionSettled{c.sides, why}};
  return strike_all(look, c, *tapped - 1, v.to_strike[*tapped - 1], why);
}

}  // namespace ui
