// Rows of yards and of colonies.
#include <fmt/format.h>

#include "storage/sheet_rows.h"
#include "storage/utf8.h"

namespace storage {
namespace {

using engine::Refusal;
using Notes = std::vector<std::pair<std::string, std::string>>;

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

void list(std::string& names, bool changed, const char* name) {
  if (changed) names += (names.empty() ? "" : ", ") + std::string(name);
}

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

engine::YardChanged yard_changes(const engine::Yard& yard, const YardSays& says) {
  engine::YardChanged change;
  change.yard = yard.id;
  if (says.place && says.place != yard.place) change.place = says.place;
  if (!says.zone.empty() && says.zone != yard.zone) change.zone = says.zone;
  if (std::string note = merged_note(yard.note, says.notes); note != yard.note)
    change.note = std::move(note);
  return change;
}

std::string names_of(const engine::YardChanged& c) {
  std::string names;
  list(names, c.place.has_value(), "place");
  list(names, c.zone.has_value(), "time zone");
  list(names, c.note.has_value(), "notes");
  return names;
}

engine::ColonyChanged colony_changes(const engine::Colony& colony, const ColonySays& says) {
  engine::ColonyChanged change;
  change.colony = colony.id;
  if (says.boxes && *says.boxes != colony.brood_boxes) change.brood_boxes = says.boxes;
  if (says.supers && *says.supers != colony.supers_on) change.supers_on = says.supers;
  if (says.spot && says.spot != colony.spot) change.spot = says.spot;
  if (says.order && *says.order != colony.order) change.order = says.order;
  if (std::string note = merged_note(colony.note, says.notes); note != colony.note)
    change.note = std::move(note);
  return change;
}

std::string names_of(const engine::ColonyChanged& c) {
  std::string names;
  list(names, c.brood_boxes.has_value(), "brood boxes");
  list(names, c.supers_on.has_value(), "supers");
  list(names, c.spot.has_value(), "spot");
  list(names, c.order.has_value(), "order");
  list(names, c.note.has_value(), "notes");
  return names;
}

Refusal add_yard(Sheet& sheet, const YardSays& says, engine::YardId& id) {
  id.bytes = sheet.new_id();
  return sheet.farm.put(
      engine::YardAdded{id, says.name, says.place, says.zone, merged_note("", says.notes)});
}

Refusal add_colony(Sheet& sheet, const ColonySays& says, engine::YardId yard) {
  engine::ColonyAdded added;
  added.colony.bytes = sheet.new_id();
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

// A change of something that an earlier row of the same file spoke of contradicts that row.
template <class Change>
RowReport take_change(Sheet& sheet, const RowCells& row, int earlier, Change change,
                      const std::string& what) {
  const std::string names = names_of(change);
  if (names.empty()) return {row.number(), RowFate::Same, what};
  if (earlier != row.number())
    return refused(row, fmt::format("{}: row {} says otherwise ({}); keep one of the two rows",
                                    what, earlier, names));
  return report(row, sheet.farm.put(std::move(change)), RowFate::Changed, what + ": " + names);
}

// What a colony's row says of a yard that is there already: it fills gaps; a place that differs is
// the colony's own, and stays in its notes.
Refusal fill_yard(Sheet& sheet, const engine::Yard& yard, const YardSays& says, Notes& notes) {
  engine::YardChanged change;
  change.yard = yard.id;
  if (says.place && !yard.place) change.place = says.place;
  if (!says.zone.empty() && yard.zone.empty()) change.zone = says.zone;
  if (says.place && yard.place && says.place != yard.place)
    notes.emplace_back("place", fmt::format("{:.6f} {:.6f}", says.place->lat_udeg / 1e6,
                                            says.place->lon_udeg / 1e6));
  if (!says.zone.empty() && !yard.zone.empty() && says.zone != yard.zone)
    notes.emplace_back("time zone", says.zone);
  return names_of(change).empty() ? Refusal::None : sheet.farm.put(std::move(change));
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
  if (!row.wrong().empty()) return refused(row, row.wrong());
  const int earlier = sheet.seen.try_emplace(folded(says.name), row.number()).first->second;
  const std::string what = fmt::format("yard {}", says.name);
  if (id.empty()) return report(row, add_yard(sheet, says, id), RowFate::Added, what);
  return take_change(sheet, row, earlier, yard_changes(sheet.farm.yard(id), says), what);
}

RowReport take_colony(Sheet& sheet, RowCells& row) {
  const YardSays yard = yard_says(row);
  ColonySays says = colony_says(row);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  engine::YardId in = known_yard(sheet, row, yard.name);
  const engine::ColonyId id =
      in.empty() ? engine::ColonyId{} : known_colony(sheet, row, in, says.name);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  const std::string key = folded(yard.name) + '\n' + folded(says.name);
  const int earlier = sheet.seen.try_emplace(key, row.number()).first->second;
  std::string what = fmt::format("colony {} in {}", says.name, yard.name);
  const bool new_yard = in.empty();
  const Refusal why = new_yard ? add_yard(sheet, yard, in)
                               : fill_yard(sheet, sheet.farm.yard(in), yard, says.notes);
  if (why != Refusal::None) return refused(row, what + " " + not_allowed(why));
  if (!id.empty())
    return take_change(sheet, row, earlier, colony_changes(sheet.farm.colony(id), says), what);
  if (new_yard) what += " (a new yard)";
  return report(row, add_colony(sheet, says, in), RowFate::Added, what);
}

}  // namespace storage
