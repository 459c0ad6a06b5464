#include "ui/screens/today/due_items.h"

#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/base/layout.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

using Kind = DueItem::Kind;

// Titles differ where one yard stands in the list for several things.
DueItem item_of(const Look& look, Kind kind, engine::YardId yard, std::string_view what) {
  DueItem item{kind};
  item.yard = yard;
  item.name = look.farm.yards.at(yard).name;
  item.row.title = fmt::format("{}: {}", item.name, what);
  item.row.id = fmt::format("{} {}", static_cast<int>(kind), engine::text(yard));
  return item;
}

void set_tag(Row& row, const char* tag, Mark mark, Surface surface) {
  row.tag = tag;
  row.mark = mark;
  row.tag_surface = surface;
}

std::string round_words(const engine::DueRound& r) {
  return fmt::format("round {} of {}", r.number, r.of);
}

std::string colonies_in(const Look& look, engine::YardId yard) {
  return engine::counted(engine::colonies_of(look.farm, yard).size(), "colony", "colonies");
}

DueItem round_item(const Look& look, const engine::DueRound& r) {
  DueItem item = item_of(look, Kind::Round, r.yard, round_words(r));
  item.course = r.course;
  const bool over = r.days_over > 0;
  set_tag(item.row, over ? "OVERDUE" : "DUE TODAY", over ? Mark::Warning : Mark::Clock,
          over ? Surface::Warning : Surface::Active);
  const auto days = static_cast<std::size_t>(std::max(0, r.days_over));
  item.row.second = over ? engine::counted(days, "day", "days") + " over, " : std::string();
  item.row.second += colonies_in(look, r.yard);
  item.lines = {fmt::format("Round {} of {}, planned for {}", r.number, r.of, day_words(r.planned)),
                colonies_in(look, r.yard)};
  return item;
}

bool left_covered(const engine::ComeBack& c) {
  return std::any_of(c.reasons.begin(), c.reasons.end(), [](const engine::ComeBackReason& r) {
    return r.why == engine::ComeBackWhy::LeftCovered;
  });
}

// Before anything else: behind a cloth that was left on the bees get no air.
void add_air(const Look& look, const engine::Due& due, std::vector<DueItem>& out) {
  for (const engine::ComeBack& c : due.come_backs) {
    if (!left_covered(c)) continue;
    const std::string colony(engine::colony_name(look.farm, c.colony));
    DueItem item = item_of(look, Kind::Air, c.yard, colony + " is closed");
    item.row.id += " " + engine::text(c.colony);
    item.row.second = "the bees need air";
    set_tag(item.row, "OPEN IT", Mark::Warning, Surface::Alarm);
    item.name = colony + " in " + item.name;
    item.walk = c.walk;
    item.only = {c.colony};
    item.lines = {"The bees need air: the walk was closed while the cloth lay there.",
                  "Take it off, then tap Cloth is off."};
    out.push_back(item);
  }
}

// Stands in place of the yard's round.
void add_walk(const Look& look, const engine::Walk& walk, std::vector<DueItem>& out) {
  const engine::Date on = engine::local_date(walk.opened);
  const bool today = on == look.today();
  std::erase_if(out,
                [&](const DueItem& i) { return i.kind == Kind::Round && i.yard == walk.yard; });
  DueItem item = item_of(look, Kind::Walk, walk.yard, "walk");
  const std::string since =
      (today ? std::string() : day_words(on) + ", ") + engine::clock_time(walk.opened);
  item.row.second = "Walk open since " + since;
  set_tag(item.row, today ? "WALK ON" : "STILL OPEN", today ? Mark::Clock : Mark::Warning,
          today ? Surface::Active : Surface::Warning);
  item.lines = {"Walk open since " + since};
  if (!today)
    item.lines.push_back(
        "It was never closed. Take off every cloth, then close it: what was not reached comes back "
        "onto this list.");
  const auto first =
      std::find_if(out.begin(), out.end(), [](const DueItem& i) { return i.kind != Kind::Air; });
  out.insert(first, item);
}

// The list comes sorted by yard; one item a yard.
void add_come_backs(const Look& look, const engine::Due& due, std::vector<DueItem>& out) {
  const std::size_t first = out.size();
  for (const engine::ComeBack& c : due.come_backs) {
    if (out.size() == first || out.back().yard != c.yard) {
      out.push_back(item_of(look, Kind::ComeBack, c.yard, "come back"));
      set_tag(out.back().row, "COME BACK", Mark::Return, Surface::Warning);
    }
    std::string line = std::string(engine::colony_name(look.farm, c.colony)) + ": ";
    for (std::size_t i = 0; i < c.reasons.size(); ++i)
      line += (i > 0 ? ", " : "") + engine::words(c.reasons[i]);
    out.back().lines.push_back(line);
    out.back().only.push_back(c.colony);
  }
  for (std::size_t i = first; i < out.size(); ++i) {
    out[i].row.second =
        engine::counted(out[i].only.size(), "colony needs", "colonies need") + " another visit";
  }
}

DueItem count_item(const Look& look, const engine::DueCount& c) {
  DueItem item = item_of(look, Kind::Count, c.yard, "count");
  item.row.second = c.last ? fmt::format("last counted {}", from_today(*c.last, look.today()))
                           : std::string("never counted");
  set_tag(item.row, "COUNT MITES", Mark::Dot, Surface::Panel);
  item.lines = {c.last ? fmt::format("Mites were last counted on {}.", day_words(*c.last))
                       : std::string("Mites were never counted here."),
                "Common practice: a count about every month in season."};
  return item;
}

// The count that tells whether a course worked.
DueItem post_count_item(const Look& look, const engine::DuePostCount& c) {
  DueItem item = item_of(look, Kind::PostCount, c.yard, "count after");
  item.course = c.course;
  item.row.second = fmt::format("last round {}", from_today(c.last_round, look.today()));
  set_tag(item.row, "COUNT AFTER", Mark::Dot, Surface::Warning);
  item.lines = {
      fmt::format("The last round was walked on {}. Count now: only a count tells whether the "
                  "course worked.",
                  day_words(c.last_round)),
      "Wash the colonies that were washed before it, about 300 bees each."};
  return item;
}

DueItem coming_item(const Look& look, const engine::DueRound& r) {
  DueItem item = item_of(look, Kind::Coming, r.yard, round_words(r));
  item.course = r.course;
  item.row.second = from_today(r.planned, look.today());
  set_tag(item.row, "COMING", Mark::Open, Surface::Panel);
  item.lines = {
      fmt::format("Round {} of {} is planned for {}", r.number, r.of, day_words(r.planned)),
      colonies_in(look, r.yard)};
  return item;
}

DueItem refused_item(const Look& look) {
  DueItem item{Kind::Label, "Files left out"};
  item.row.title = item.name;
  item.row.second = engine::counted(look.refused_files.size(), "file", "files") + " not good";
  set_tag(item.row, "SETUP", Mark::Warning, Surface::Warning);
  for (const std::string& line : look.refused_files) item.lines.push_back(without_folders(line));
  item.lines.push_back("Put it right on a computer, then start again.");
  return item;
}

void add_upkeep(const Look& look, std::vector<DueItem>& out) {
  if (!look.farm.setup.rules) {
    DueItem item{Kind::Label, "Choose your label"};
    item.row.title = item.name;
    item.row.second = "in Setup";
    set_tag(item.row, "SETUP", Mark::Warning, Surface::Warning);
    item.lines = {
        "The label of the product in your hand decides the dose. Choose its profile in "
        "Setup before the first walk and check every number against the label."};
    out.push_back(item);
  }
  if (!look.refused_files.empty()) out.push_back(refused_item(look));
  const std::vector<std::string> asks = kit_asks(look);
  if (asks.empty()) return;
  DueItem item{Kind::Kit, "Kit to look after"};
  item.row.title = item.name;
  item.row.second = engine::counted(asks.size(), "thing", "things");
  set_tag(item.row, "KIT", Mark::Warning, Surface::Warning);
  item.lines = asks;
  out.push_back(item);
}

}  // namespace

std::vector<DueItem> due_items(const Look& look, const engine::Due& due) {
  std::vector<DueItem> out;
  add_air(look, due, out);
  for (const engine::DueRound& r : due.rounds) out.push_back(round_item(look, r));
  if (const auto* walk = engine::walk_under_way(look.farm, look.device)) add_walk(look, *walk, out);
  for (const engine::DuePostCount& c : due.post_counts)
    if (c.days_over >= 0) out.push_back(post_count_item(look, c));
  add_come_backs(look, due, out);
  add_upkeep(look, out);
  for (const engine::DueRound& r : due.coming) out.push_back(coming_item(look, r));
  for (const engine::DueCount& c : due.counts) out.push_back(count_item(look, c));
  return out;
}

}  // namespace ui
