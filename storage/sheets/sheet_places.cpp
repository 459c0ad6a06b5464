// Rows of yards and of colonies.
#include <fmt/format.h>

#include "storage/sheets/sheet_rows.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

using engine::Refusal;

// What a row says of a yard.
struct YardSays {
  std::string name;
  std::optional<engine::Place> place;
  std::string zone;
  Notes notes;
};

struct ColonySays {
  std::string name;
  std::optional<int> boxes, order;
  std::optional<bool> supers;
  std::optional<engine::Spot> spot;
  Notes notes;
};

std::string not_allowed(Refusal why) {
  return fmt::format("cannot be taken ({})", engine::name(why));
}

// The one yard of that name; an empty id when there is none yet. Refuses the row when it cannot
// be told.
engine::YardId known_yard(const Sheet& sheet, RowCells& row, const std::string& name) {
  const auto found = sheet.farm.yards(name);
  if (found.there.size() > 1)
    row.refuse(fmt::format("two yards are called \"{}\"; rename one of them first", name));
  if (found.there.empty() && !found.lost.empty())
    row.refuse(fmt::format("yard \"{}\" was given up; add it again by hand if it is back", name));
  return found.there.empty() ? engine::YardId{} : found.there.front();
}

engine::ColonyId known_colony(const Sheet& sheet, RowCells& row, engine::YardId yard,
                              const std::string& name) {
  const auto found = sheet.farm.colonies(yard, name);
  if (found.there.size() > 1)
    row.refuse(fmt::format("two colonies of this yard are called \"{}\"; rename one first", name));
  if (found.there.empty() && !found.lost.empty())
    row.refuse(fmt::format("colony \"{}\" was lost; add a new colony of that name by hand", name));
  return found.there.empty() ? engine::ColonyId{} : found.there.front();
}

// What a row gives: a field's name, and whether the farm says otherwise so far.
struct Gift {
  std::string field;
  bool differs = false;
};
using Gives = std::vector<Gift>;

template <class T, class U>
void give(Gives& all, const char* field, const std::optional<T>& says, const U& is) {
  if (says) all.push_back({field, says != is});
}

void give(Gives& all, const Notes& says, const std::string& is) {
  for (const auto& [key, text] : says)
    all.push_back({key.empty() ? "notes" : "notes: " + key, !has_line(is, note_line(key, text))});
}

Gives gives(const YardSays& says, const engine::Yard& is) {
  Gives all;
  give(all, "place", says.place, is.place);
  if (!says.zone.empty()) all.push_back({"time zone", says.zone != is.zone});
  give(all, says.notes, is.note);
  return all;
}

Gives gives(const ColonySays& says, const engine::Colony& is) {
  Gives all;
  give(all, "brood boxes", says.boxes, is.brood_boxes);
  give(all, "supers", says.supers, is.supers_on);
  give(all, "spot", says.spot, is.spot);
  give(all, "order", says.order, is.order);
  give(all, says.notes, is.note);
  return all;
}

engine::YardChanged change_of(const YardSays& says, const engine::Yard& is) {
  engine::YardChanged change;
  change.yard = is.id;
  if (says.place && says.place != is.place) change.place = says.place;
  if (!says.zone.empty() && says.zone != is.zone) change.zone = says.zone;
  if (std::string note = merged_note(is.note, says.notes); note != is.note)
    change.note = std::move(note);
  return change;
}

engine::ColonyChanged change_of(const ColonySays& says, const engine::Colony& is) {
  engine::ColonyChanged change;
  change.colony = is.id;
  if (says.boxes && *says.boxes != is.brood_boxes) change.brood_boxes = says.boxes;
  if (says.supers && *says.supers != is.supers_on) change.supers_on = says.supers;
  if (says.spot && says.spot != is.spot) change.spot = says.spot;
  if (says.order && *says.order != is.order) change.order = says.order;
  if (std::string note = merged_note(is.note, says.notes); note != is.note)
    change.note = std::move(note);
  return change;
}

// "brood boxes, notes": what differs, each kind once.
std::string names_of(const Gives& all) {
  std::string names;
  for (const auto& [field, differs] : all) {
    const std::string name = field.substr(0, field.find(':'));
    if (differs && names.find(name) == std::string::npos)
      names += (names.empty() ? "" : ", ") + name;
  }
  return names;
}

Refusal add_yard(Sheet& sheet, const YardSays& says, engine::YardId& id) {
  id = sheet.farm.id_of_new_yard(says.name);
  return sheet.farm.put(
      engine::YardAdded{id, says.name, says.place, says.zone, merged_note("", says.notes)});
}

Refusal add_colony(Sheet& sheet, const ColonySays& says, engine::YardId yard) {
  engine::ColonyAdded added;
  added.colony = sheet.farm.id_of_new_colony(yard, says.name);
  added.yard = yard;
  added.name = says.name;
  added.brood_boxes = says.boxes.value_or(1);
  added.supers_on = says.supers.value_or(false);
  added.spot = says.spot;
  added.order = says.order;
  added.note = merged_note("", says.notes);
  return sheet.farm.put(std::move(added));
}

RowReport report(const RowCells& row, Refusal why, RowFate fate, std::string what) {
  if (why != Refusal::None) return refused(row, what + " " + not_allowed(why));
  return {row.number(), fate, std::move(what)};
}

// Refuses a row that changes what an earlier row of the same file gave.
void contradict(const Given& given, const Gives& all, RowCells& row, const std::string& what) {
  for (const auto& [field, differs] : all) {
    const auto earlier = given.find(field);
    if (!differs || earlier == given.end()) continue;
    row.refuse(fmt::format("{}: row {} says otherwise ({}); keep one of the two rows", what,
                           earlier->second, field));
  }
}

void remember(Given& given, const Gives& all, const RowCells& row) {
  for (const auto& [field, differs] : all) given.try_emplace(field, row.number());
}

// A row about a thing that is there already.
template <class Says, class Thing>
RowReport take_change(Sheet& sheet, const RowCells& row, const Says& says, const Thing& is,
                      const std::string& what) {
  const std::string names = names_of(gives(says, is));
  if (names.empty()) return {row.number(), RowFate::Same, what};
  return report(row, sheet.farm.put(change_of(says, is)), RowFate::Changed, what + ": " + names);
}

// What a colony's row says of a yard that is there already: it fills gaps; a place that differs is
// the colony's own, and goes to its notes.
YardSays gaps_of(const engine::Yard& yard, const YardSays& says, Notes& notes) {
  YardSays gaps;
  if (!yard.place) gaps.place = says.place;
  if (yard.zone.empty()) gaps.zone = says.zone;
  if (says.place && yard.place && says.place != yard.place)
    notes.emplace_back("place", fmt::format("{:.6f} {:.6f}", says.place->lat_udeg / 1e6,
                                            says.place->lon_udeg / 1e6));
  if (!says.zone.empty() && !yard.zone.empty() && says.zone != yard.zone)
    notes.emplace_back("time zone", says.zone);
  return gaps;
}

Refusal fill_yard(Sheet& sheet, engine::YardId id, const YardSays& gaps) {
  const engine::Yard& yard = sheet.farm.yard(id);
  if (names_of(gives(gaps, yard)).empty()) return Refusal::None;
  return sheet.farm.put(change_of(gaps, yard));
}

ColonySays colony_says(RowCells& row) {
  ColonySays says;
  says.name = row.name(Field::Colony);
  if (says.name.empty()) row.refuse("colony: is empty");
  says.boxes = row.whole_number(Field::Boxes, 1, 9);
  says.supers = row.yes(Field::Supers);
  says.spot = row.spot();
  says.order = row.whole_number(Field::Order, 0, 100'000);
  says.notes = row.notes();
  return says;
}

YardSays yard_says(RowCells& row) {
  YardSays says;
  says.name = row.name(Field::Yard);
  if (says.name.empty()) row.refuse("yard: is empty");
  says.place = row.place();
  says.zone = row.zone();
  return says;
}

}  // namespace

RowReport take_yard(Sheet& sheet, RowCells& row) {
  YardSays says = yard_says(row);
  says.notes = row.notes();
  if (!row.wrong().empty()) return refused(row, row.wrong());
  engine::YardId id = known_yard(sheet, row, says.name);
  const std::string what = fmt::format("yard {}", says.name);
  Given& given = sheet.given[folded(says.name)];
  const engine::Yard is = id.empty() ? engine::Yard{} : sheet.farm.yard(id);
  const Gives all = gives(says, is);
  contradict(given, all, row, what);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  remember(given, all, row);
  if (id.empty()) return report(row, add_yard(sheet, says, id), RowFate::Added, what);
  return take_change(sheet, row, says, is, what);
}

RowReport take_colony(Sheet& sheet, RowCells& row) {
  const YardSays yard = yard_says(row);
  ColonySays says = colony_says(row);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  engine::YardId in = known_yard(sheet, row, yard.name);
  const bool new_yard = in.empty();
  const engine::ColonyId id =
      new_yard ? engine::ColonyId{} : known_colony(sheet, row, in, says.name);
  YardSays gaps;
  if (!new_yard) gaps = gaps_of(sheet.farm.yard(in), yard, says.notes);
  std::string what = fmt::format("colony {} in {}", says.name, yard.name);
  Given& given = sheet.given[folded(yard.name) + '\n' + folded(says.name)];
  const engine::Colony is = id.empty() ? engine::Colony{} : sheet.farm.colony(id);
  const Gives all = gives(says, is);
  contradict(given, all, row, what);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  remember(given, all, row);
  const Refusal why = new_yard ? add_yard(sheet, yard, in) : fill_yard(sheet, in, gaps);
  if (why != Refusal::None) return refused(row, what + " " + not_allowed(why));
  if (!id.empty()) return take_change(sheet, row, says, is, what);
  if (new_yard) what += " (a new yard)";
  return report(row, add_colony(sheet, says, in), RowFate::Added, what);
}

}  // namespace storage
