#include <fmt/format.h>

#include <algorithm>

#include "engine/walk/timers.h"
#include "ui/screens/yards_parts.h"

namespace ui {

namespace {

struct Dated {
  engine::Date on;
  Row row;
};

const engine::Treatment* last_of(const engine::Walk& walk, engine::ColonyId colony) {
  const engine::Stop* stop = engine::find_stop(walk, colony);
  return stop == nullptr || stop->treatments.empty() ? nullptr : &stop->treatments.back();
}

std::string lengths(const engine::Treatment& tr) {
  std::string line;
  if (const auto dwell = engine::dwell_of(tr))
    line += ", dwell " + engine::minutes_seconds(dwell->length);
  if (const auto seal = engine::seal_of(tr); seal && tr.cloth)
    line += ", closed " + engine::minutes_seconds(seal->length);
  return line;
}

void add_walks(const Look& look, engine::ColonyId colony, std::vector<Dated>& out) {
  const engine::Units units = engine::units_of(look.farm.setup);
  for (const auto& [id, walk] : look.farm.walks) {
    const engine::Stop* stop = engine::find_stop(walk, colony);
    if (stop == nullptr) continue;
    for (const engine::Treatment& tr : stop->treatments) {
      const engine::Date on = engine::local_date(tr.set_at);
      Row row{.title = "Vapor: " + engine::words(tr.dose, walk.rules.basis, units)};
      row.second = short_day(on, look.today()) + lengths(tr);
      row.tag = tr.over_label ? "OVER THE LABEL" : "TREATED";
      row.mark = tr.over_label ? Mark::Warning : Mark::Check;
      row.tag_surface = tr.over_label ? Surface::Warning : Surface::Good;
      out.push_back({on, row});
    }
    if (stop->phase != engine::Phase::PassedOver || !stop->passed) continue;
    const engine::Date on = engine::local_date(stop->passed_at.value_or(walk.opened));
    out.push_back({on,
                   {.title = std::string("Passed over: ") + engine::words(*stop->passed),
                    .second = day_words(on),
                    .tag = "PASSED OVER",
                    .mark = Mark::Cross,
                    .tag_surface = Surface::Muted}});
  }
}

Row count_row(const engine::CountTaken& c) {
  Row row{.title = engine::counted(static_cast<std::size_t>(c.mites), "mite", "mites")};
  if (c.bees) {
    row.title += fmt::format(" on {} bees: {:.1f} in 100", *c.bees, 100.0 * c.mites / *c.bees);
  } else if (c.hours) {
    row.title += fmt::format(" in {} h: {:.1f} a day", *c.hours, 24.0 * c.mites / *c.hours);
  }
  row.second = std::string(engine::words(c.method)) + ", " + day_words(c.on);
  row.tag = "COUNT";
  row.mark = Mark::Dot;
  return row;
}

std::optional<Dated> other_row(const engine::Body& body, engine::ColonyId colony,
                               const engine::Stamp& at) {
  if (const auto* o = std::get_if<engine::OtherTreatmentGiven>(&body); o && o->colony == colony) {
    Row row{.title = o->product + (o->dose.empty() ? "" : ", " + o->dose)};
    row.second = std::string(engine::words(o->method)) + ", " + day_words(o->on);
    row.tag = "OTHER";
    row.mark = Mark::Dot;
    return Dated{o->on, row};
  }
  if (const auto* n = std::get_if<engine::NoteWritten>(&body); n && n->colony == colony) {
    const engine::Date on = engine::local_date(at);
    return Dated{on, {.title = n->text, .second = "note, " + day_words(on)}};
  }
  return std::nullopt;
}

std::vector<Dated> history(const Look& look, engine::ColonyId colony) {
  std::vector<Dated> all;
  add_walks(look, colony, all);
  for (const engine::Count& c : look.farm.counts)
    if (c.taken.colony == colony) all.push_back({c.taken.on, count_row(c.taken)});
  for (const engine::Entry& e : look.farm.log) {
    if (!e.counts()) continue;
    if (const auto row = other_row(e.event.body, colony, e.event.stamp)) all.push_back(*row);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Dated& a, const Dated& b) { return a.on > b.on; });
  return all;
}

}  // namespace

std::vector<engine::ComeBackReason> come_back_of(const Look& look, engine::ColonyId colony) {
  const auto at = look.farm.colonies.find(colony);
  if (at == look.farm.colonies.end() || !at->second.last_walk) return {};
  const engine::Walk& walk = look.farm.walks.at(*at->second.last_walk);
  const engine::Stop* stop = engine::find_stop(walk, colony);
  return stop == nullptr ? std::vector<engine::ComeBackReason>{}
                         : engine::reasons_to_come_back(walk, *stop);
}

std::optional<engine::Date> last_treated(const Look& look, engine::ColonyId colony) {
  std::optional<engine::Date> last;
  for (const auto& [id, walk] : look.farm.walks) {
    const engine::Treatment* tr = last_of(walk, colony);
    if (tr == nullptr) continue;
    const engine::Date on = engine::local_date(tr->set_at);
    if (!last || on > *last) last = on;
  }
  return last;
}

std::vector<Row> colony_facts(const Look& look, const engine::Colony& c) {
  std::vector<Row> rows = {{.title = engine::counted(static_cast<std::size_t>(c.brood_boxes),
                                                     "brood box", "brood boxes") +
                                     (c.supers_on ? ", honey supers on" : ", no honey supers")}};
  for (const engine::ComeBackReason& r : come_back_of(look, c.id)) {
    if (r.why == engine::ComeBackWhy::LeftCovered) {
      rows.insert(rows.begin(), {.title = "The bees need air: its cloth was left on",
                                 .tag = "OPEN IT",
                                 .mark = Mark::Warning,
                                 .tag_surface = Surface::Alarm});
      continue;
    }
    rows.push_back({.title = engine::words(r),
                    .tag = "COME BACK",
                    .mark = Mark::Return,
                    .tag_surface = Surface::Warning});
  }
  if (!c.note.empty()) rows.push_back({.title = c.note, .second = "kept with the colony"});
  for (const Dated& d : history(look, c.id)) rows.push_back(d.row);
  return rows;
}

}  // namespace ui
