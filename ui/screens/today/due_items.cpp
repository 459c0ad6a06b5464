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
  item.what = what;
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

int hives_in(const Look& look, engine::YardId yard) {
  return static_cast<int>(engine::colonies_of(look.farm, yard).size());
}

std::string colonies_in(const Look& look, engine::YardId yard) {
  return engine::counted(engine::colonies_of(look.farm, yard).size(), "colony", "colonies");
}

DueItem round_item(const Look& look, const engine::DueRound& r) {
  DueItem item = item_of(look, Kind::Round, r.yard, round_words(r));
  item.course = r.course;
  item.hives = hives_in(look, r.yard);
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

// About one colony of the yard.
DueItem colony_item(const Look& look, Kind kind, const engine::AgendaItem& a, const char* what) {
  const std::string colony(engine::colony_name(look.farm, a.colonies.front()));
  DueItem item = item_of(look, kind, a.yard, colony + what);
  item.row.id += " " + engine::text(a.colonies.front());
  item.name = colony + " in " + item.name;
  item.what = what + 1;
  item.only = a.colonies;
  return item;
}

// Behind a cloth that was left on the bees get no air.
DueItem air_item(const Look& look, const engine::AgendaItem& a) {
  DueItem item = colony_item(look, Kind::Air, a, " is closed");
  item.row.second = "the bees need air";
  set_tag(item.row, "OPEN IT", Mark::Warning, Surface::Alarm);
  item.walk = a.walk;
  item.lines = {"The bees need air: the walk was closed while the cloth lay there.",
                "Take it off, then tap Cloth is off."};
  return item;
}

DueItem walk_item(const Look& look, const engine::Walk& walk) {
  const engine::Date on = engine::local_date(walk.opened);
  const bool today = on == look.today(), own = walk.device == look.device;
  DueItem item = item_of(look, Kind::Walk, walk.yard, "walk");
  if (!own) item.row.id += " " + engine::text(walk.id);
  const std::string since =
      (today ? std::string() : day_words(on) + ", ") + engine::clock_time(walk.opened);
  const auto done = std::count_if(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
    return s.phase == engine::Phase::Done;
  });
  item.hives = static_cast<int>(walk.stops.size());
  item.what.clear();
  item.walk = walk.id;
  item.row.second =
      fmt::format("Walk open since {}, {} of {} done", since, done, walk.stops.size());
  set_tag(item.row, today ? "WALK ON" : "STILL OPEN", today ? Mark::Clock : Mark::Warning,
          today ? Surface::Active : Surface::Warning);
  item.lines = {"Walk open since " + since};
  if (!own) item.lines.push_back("On tablet " + engine::short_device(walk.device) + ".");
  if (!today)
    item.lines.push_back(
        "It was never closed. Take off every cloth, then close it: what was not reached comes back "
        "onto this list.");
  return item;
}

DueItem treat_item(const Look& look, const engine::AgendaItem& a) {
  DueItem item = item_of(look, Kind::Treat, a.yard, "plan rounds");
  item.only = a.colonies;
  item.row.second = a.about.substr(0, a.about.find(": plan rounds"));
  set_tag(item.row, "TREAT", Mark::Warning, Surface::Warning);
  item.lines = {engine::line_of(a, look.farm),
                "No rounds are planned there. Your label decides how often and how much."};
  return item;
}

DueItem dead_item(const Look& look, const engine::AgendaItem& a) {
  DueItem item = colony_item(look, Kind::DeadOut, a, " found dead");
  item.row.second = "mark it lost?";
  set_tag(item.row, "FOUND DEAD", Mark::Warning, Surface::Panel);
  item.lines = {"It gets no dose and no visit any more.",
                "Mark it lost, or take it off the list on its own page if it lives."};
  return item;
}

// Of strips or of what waits; several in a yard are told apart by product and day.
DueItem end_item(const Look& look, const engine::AgendaItem& a) {
  const engine::TreatmentEnd& end = *a.end;
  const bool strips = end.kind == engine::EndKind::StripsOut;
  const char* what = strips                                    ? "strips out"
                     : end.kind == engine::EndKind::SupersWait ? "supers wait"
                                                               : "honey waits";
  DueItem item = item_of(look, strips ? Kind::StripsOut : Kind::Wait, a.yard, what);
  item.row.id += fmt::format(" {} {} {}", what, engine::iso_date(end.on), end.product);
  item.only = a.colonies;
  const int over = days_from(end.on, look.today());
  item.row.second = fmt::format("{} {}, {}", strips ? "by" : "not before",
                                short_day(end.on, look.today()), end.product);
  if (strips)
    set_tag(item.row,
            over > 0    ? "OVERDUE"
            : over == 0 ? "DUE TODAY"
                        : "COMING",
            over > 0 ? Mark::Warning : Mark::Clock, over > 0 ? Surface::Warning : Surface::Panel);
  else
    set_tag(item.row, "WAIT", Mark::Clock, Surface::Panel);
  item.lines = {engine::line_of(a, look.farm),
                strips ? "When they are out, note the days in the hive on the treatment's page."
                       : "Your label decides how long honey and supers wait."};
  return item;
}

DueItem come_back_item(const Look& look, const engine::Due& due, const engine::AgendaItem& a) {
  DueItem item = item_of(look, Kind::ComeBack, a.yard, "come back");
  set_tag(item.row, "COME BACK", Mark::Return, Surface::Warning);
  item.only = a.colonies;
  item.hives = static_cast<int>(a.colonies.size());
  item.row.second =
      engine::counted(a.colonies.size(), "colony needs", "colonies need") + " another visit";
  for (std::size_t n = 0; n < a.colonies.size(); ++n) {
    const engine::ComeBack& c = due.come_backs[a.place + n];
    std::string line = std::string(engine::colony_name(look.farm, c.colony)) + ": ";
    for (std::size_t i = 0; i < c.reasons.size(); ++i)
      line += (i > 0 ? ", " : "") + engine::words(c.reasons[i]);
    item.lines.push_back(line);
  }
  return item;
}

DueItem sample_item(const Look& look, const engine::Due& due, const engine::AgendaItem& a) {
  DueItem item = item_of(look, Kind::Sample, a.yard, "how many bees?");
  item.row.second = engine::counted(a.colonies.size(), "colony", "colonies") + ", sample missing";
  set_tag(item.row, "SAMPLE?", Mark::Open, Surface::Warning);
  item.lines = {"A count decides nothing without its sample."};
  for (const engine::DueSample& s : due.samples)
    if (s.yard == a.yard)
      item.lines.push_back(
          fmt::format("{}: {} on {}", engine::colony_name(look.farm, s.colony),
                      engine::counted(static_cast<std::size_t>(s.taken.mites), "mite", "mites"),
                      short_day(s.taken.on, look.today())));
  return item;
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
  item.hives = hives_in(look, r.yard);
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

DueItem of_agenda(const Look& look, const engine::Due& due, const engine::AgendaItem& a) {
  switch (a.kind) {
    case engine::AgendaKind::Shut:
      return air_item(look, a);
    case engine::AgendaKind::OpenWalk:
      return walk_item(look, look.farm.walks.at(*a.walk));
    case engine::AgendaKind::Treat:
      return treat_item(look, a);
    case engine::AgendaKind::Round:
      return round_item(look, due.rounds[a.place]);
    case engine::AgendaKind::ComeBack:
      return come_back_item(look, due, a);
    case engine::AgendaKind::DeadOut:
      return dead_item(look, a);
    case engine::AgendaKind::StripsOut:
    case engine::AgendaKind::Wait:
      return end_item(look, a);
    case engine::AgendaKind::PostCount:
      return post_count_item(look, due.post_counts[a.place]);
    case engine::AgendaKind::Sample:
      return sample_item(look, due, a);
    case engine::AgendaKind::Count:
      return count_item(look, due.counts[a.place]);
    case engine::AgendaKind::Coming:
      break;
  }
  return coming_item(look, due.coming[a.place]);
}

}  // namespace

std::vector<DueItem> due_items(const Look& look, const engine::Due& due,
                               const std::vector<engine::AgendaItem>& agenda) {
  std::vector<DueItem> out;
  auto next = agenda.begin();
  for (; next != agenda.end() && next->kind < engine::AgendaKind::PostCount; ++next)
    out.push_back(of_agenda(look, due, *next));
  add_upkeep(look, out);
  for (; next != agenda.end(); ++next) out.push_back(of_agenda(look, due, *next));
  return out;
}

}  // namespace ui
