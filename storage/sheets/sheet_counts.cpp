// Rows of counts of mites.
#include <fmt/format.h>

#include "storage/sheets/sheet_rows.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

using engine::CountMethod;
using engine::CountTaken;

// Far above what is found in yards (common knowledge): beyond it a slip of the keyboard is
// likelier.
constexpr int kMostMites = 20'000;
constexpr int kMostBees = 2000;
constexpr int kMostHours = 24 * 31;
constexpr int kMostMitesPerBee = 2;

std::string numbers_of(const CountTaken& c) {
  std::string out = fmt::format("{} mites", c.mites);
  if (c.bees) out += fmt::format(" of {} bees", *c.bees);
  if (c.hours) out += fmt::format(" in {} h", *c.hours);
  return out;
}

// The colony of the row; refuses the row when none or more than one may be meant.
engine::ColonyId counted_colony(const Sheet& sheet, RowCells& row, const std::string& yard,
                                const std::string& name) {
  SheetFarm::Colonies found;
  if (yard.empty()) {
    found = sheet.farm.colonies(name);
  } else {
    const auto yards = sheet.farm.yards(yard);
    if (yards.there.empty() && yards.lost.empty())
      row.refuse(fmt::format("yard \"{}\" is not known; read the sheet of colonies first", yard));
    for (const auto& in : {yards.there, yards.lost})
      for (const engine::YardId id : in) {
        const auto here = sheet.farm.colonies(id, name);
        found.there.insert(found.there.end(), here.there.begin(), here.there.end());
        found.lost.insert(found.lost.end(), here.lost.begin(), here.lost.end());
      }
  }
  // A count of a colony that died since is still a count.
  const auto& meant = found.there.empty() ? found.lost : found.there;
  if (meant.empty())
    row.refuse(fmt::format("colony \"{}\" is not known; read the sheet of colonies first", name));
  if (meant.size() > 1)
    row.refuse(fmt::format("more than one colony is called \"{}\"; {}", name,
                           yard.empty() ? "add a column \"yard\"" : "rename one of them first"));
  return meant.size() == 1 ? meant.front() : engine::ColonyId{};
}

// A word that is not known is kept beside "other". Without a word, hours mean a board.
CountMethod method_of(const RowCells& row, const CountTaken& taken, Notes& notes) {
  const std::string_view word = row.text(Field::Method);
  if (word.empty())
    return taken.hours && !taken.bees ? CountMethod::StickyBoard : CountMethod::Other;
  const auto method = count_method(word);
  if (!method) notes.emplace_back("method", one_line(word));
  return method.value_or(CountMethod::Other);
}

void check_numbers(const Sheet& sheet, RowCells& row, const CountTaken& taken) {
  if (row.text(Field::Mites).empty()) row.refuse("mites: is empty");
  if (taken.bees && taken.mites > kMostMitesPerBee * *taken.bees)
    row.refuse(fmt::format("{} cannot be; look for exchanged columns", numbers_of(taken)));
  // A clock that lost its battery shows a day long ago and can say nothing about the future.
  const bool clock_is_set = sheet.today.year() >= std::chrono::year{2024};
  if (clock_is_set && engine::days(taken.on) > engine::days(sheet.today) + std::chrono::days{1})
    row.refuse(fmt::format("date: {} is in the future", engine::iso_date(taken.on)));
}

CountTaken count_says(Sheet& sheet, RowCells& row) {
  CountTaken taken;
  const std::string yard = row.name(Field::Yard), name = row.name(Field::Colony);
  if (name.empty()) row.refuse("colony: is empty");
  const auto on = row.date(sheet.dates);
  taken.mites = row.whole_number(Field::Mites, 0, kMostMites).value_or(0);
  taken.bees = row.whole_number(Field::Bees, 1, kMostBees);
  taken.hours = row.whole_number(Field::Hours, 1, kMostHours);
  auto notes = row.notes();
  taken.method = method_of(row, taken, notes);
  taken.note = merged_note("", notes);
  if (!row.wrong().empty()) return taken;
  taken.on = *on;
  check_numbers(sheet, row, taken);
  if (row.wrong().empty()) taken.colony = counted_colony(sheet, row, yard, name);
  return taken;
}

}  // namespace

RowReport take_count(Sheet& sheet, RowCells& row) {
  CountTaken taken = count_says(sheet, row);
  if (!row.wrong().empty()) return refused(row, row.wrong());
  const SheetFarm::CountKey key{taken.colony, taken.on, taken.method};
  const std::string what = fmt::format("count of {} on {}: {}", one_line(row.text(Field::Colony)),
                                       engine::iso_date(taken.on), numbers_of(taken));
  const auto first = sheet.counted.try_emplace(key, row.number()).first;
  if (const CountTaken* there = sheet.farm.count(key)) {
    if (same_numbers(*there, taken)) return {row.number(), RowFate::Same, what};
    const std::string where = first->second == row.number()
                                  ? "the farm holds"
                                  : fmt::format("row {} says", first->second);
    return refused(row, fmt::format("{}, but {} {} for that day and method; strike that count "
                                    "first, or correct this row",
                                    what, where, numbers_of(*there)));
  }
  if (const std::string* why = sheet.farm.struck(taken))
    return refused(row,
                   fmt::format("{}: was taken back{}{}", what, why->empty() ? "" : ": ", *why));
  taken.count = sheet.farm.id_of(taken);
  const engine::Refusal why = sheet.farm.put(std::move(taken));
  if (why == engine::Refusal::None) return {row.number(), RowFate::Added, what};
  return refused(row, fmt::format("{} cannot be taken ({})", what, engine::name(why)));
}

}  // namespace storage
