#include "storage/sheets/sheet_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "storage/sheets/sheet_words.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string field_name(Field f) {
  constexpr const char* kNames[kFields] = {
      "the yard",      "the colony",    "the brood boxes", "honey supers",
      "metres east",   "metres north",  "the order",       "the latitude",
      "the longitude", "the time zone", "notes",           "the date",
      "the method",    "the mites",     "the bees",        "the hours"};
  return kNames[static_cast<std::size_t>(f)];
}

// Heads of lines in notes that are ours: the notes' own column, and what a row says of a yard that
// says otherwise, or of a method without a name here.
const std::set<std::string> kOwnKeys = {"Notes", "place", "time zone", "method"};

// The header on one line, without the ": " that ends a key.
std::string key_text(const std::string& header) {
  std::string key = one_line(header);
  for (auto at = key.find(": "); at != std::string::npos; at = key.find(": ")) key.erase(at + 1, 1);
  return key;
}

// Gives each column to the field it means; of two, the stronger word wins.
class Assigner {
 public:
  explicit Assigner(const CsvRow& header) : header_(header), meanings_(header.cells.size()) {
    columns_.at.fill(-1);
    columns_.keys = kOwnKeys;
    columns_.width = header.cells.size();
    for (std::size_t i = 0; i < header.cells.size(); ++i)
      meanings_[i] = header_meaning(header.cells[i]);
  }

  engine::Result<Columns> run() {
    for (std::size_t i = 0; i < meanings_.size(); ++i)
      if (meanings_[i].field) assign(i);
    if (!wrong_.empty()) return Status(Code::BadInput, wrong_);
    assign_name();
    if (std::string missing = choose_sort(); !missing.empty())
      return Status(Code::BadInput, std::move(missing));
    drop_unused();
    take_units();
    describe();
    return std::move(columns_);
  }

 private:
  int& slot(Field f) { return columns_.at[static_cast<std::size_t>(f)]; }
  [[nodiscard]] bool has(Field f) const { return columns_.has(f); }

  void assign(std::size_t i) {
    const HeaderMeaning& word = meanings_[i];
    int& at = slot(*word.field);
    const auto mine = static_cast<int>(i);
    if (at < 0) {
      at = mine;
      return;
    }
    const HeaderMeaning& other = meanings_[static_cast<std::size_t>(at)];
    if (other.weak && !word.weak) {
      at = mine;
      return;
    }
    if (other.weak == word.weak && word.field != Field::Note && wrong_.empty())
      wrong_ = fmt::format("row {}: columns {} (\"{}\") and {} (\"{}\") both say {}; keep one",
                           header_.number, column_letters(static_cast<std::size_t>(at)),
                           header_.cells[static_cast<std::size_t>(at)], column_letters(i),
                           header_.cells[i], field_name(*word.field));
  }

  void assign_name() {
    const auto named = std::find_if(header_.cells.begin(), header_.cells.end(), is_name_header);
    if (named == header_.cells.end()) return;
    const auto column = static_cast<int>(named - header_.cells.begin());
    if (has(Field::Yard) && !has(Field::Colony)) slot(Field::Colony) = column;
    if (!has(Field::Yard) && !has(Field::Colony) && (has(Field::Lat) || has(Field::Zone)))
      slot(Field::Yard) = column;
  }

  std::string choose_sort() {
    const auto missing = [&](const char* holds, const char* name) {
      return fmt::format("row {}: the columns hold {} but none is called \"{}\"; add one",
                         header_.number, holds, name);
    };
    if (has(Field::Mites)) {
      columns_.sort = SheetSort::Counts;
      if (!has(Field::Colony)) return missing("counts of mites", "colony");
      return has(Field::Date) ? "" : missing("counts of mites", "date");
    }
    if (has(Field::Colony)) {
      columns_.sort = SheetSort::Colonies;
      return has(Field::Yard) ? "" : missing("colonies", "yard");
    }
    if (has(Field::Yard)) return {};
    return fmt::format(
        "row {}: no column is called \"yard\", \"colony\" or \"mites\"; the first row must hold "
        "the columns' names",
        header_.number);
  }

  void drop(std::initializer_list<Field> fields) {
    for (const Field f : fields) slot(f) = -1;
  }

  // What this sort of sheet has no place for is kept as a note.
  void drop_unused() {
    using enum Field;
    if (columns_.sort == SheetSort::Counts) {
      drop({Boxes, Supers, East, North, Order, Lat, Lon, Zone});
    } else {
      drop({Date, Method, Bees, Hours});
    }
    if (columns_.sort == SheetSort::Yards) drop({Boxes, Supers, East, North, Order});
    if (has(Lat) != has(Lon)) drop({Lat, Lon});
    if (has(East) != has(North)) drop({East, North});
  }

  void take_units() {
    for (const Field f : {Field::East, Field::North}) {
      if (!has(f)) continue;
      const auto& meaning = meanings_[static_cast<std::size_t>(slot(f))];
      columns_.unit_tenth_mm[f == Field::North] = meaning.unit_tenth_mm;
    }
  }

  void describe() {
    for (std::size_t i = 0; i < header_.cells.size(); ++i) {
      const std::string& text = header_.cells[i];
      const auto used = std::find(columns_.at.begin(), columns_.at.end(), static_cast<int>(i));
      if (used != columns_.at.end()) {
        const auto field = static_cast<Field>(used - columns_.at.begin());
        columns_.lines.push_back(
            fmt::format("column {} \"{}\": {}", column_letters(i), text, field_name(field)));
        continue;
      }
      add_extra(i);
    }
  }

  void add_extra(std::size_t i) {
    const std::string& text = header_.cells[i];
    const std::string wanted = text.empty() ? "column " + column_letters(i) : key_text(text);
    const std::string key = free_key(columns_.keys, wanted);
    columns_.keys.insert(key);
    columns_.extras.push_back({i, key});
    if (text.empty()) return;
    columns_.lines.push_back(fmt::format("column {} \"{}\": not known, kept in the notes{}",
                                         column_letters(i), text,
                                         key == text ? "" : fmt::format(" as \"{}\"", key)));
  }

  const CsvRow& header_;
  std::vector<HeaderMeaning> meanings_;
  Columns columns_;
  std::string wrong_;
};

}  // namespace

engine::Result<Columns> find_columns(const CsvRow& header) { return Assigner(header).run(); }

std::string free_key(const std::set<std::string>& used, const std::string& wanted) {
  std::string key = wanted;
  for (int n = 2; used.contains(key); ++n) key = fmt::format("{} {}", wanted, n);
  return key;
}

int known_headers(const CsvRow& header) {
  return static_cast<int>(std::count_if(
      header.cells.begin(), header.cells.end(),
      [](const std::string& cell) { return header_meaning(cell).field || is_name_header(cell); }));
}

std::string column_letters(std::size_t column) {
  std::string out;
  for (std::size_t n = column + 1; n > 0; n = (n - 1) / 26)
    out.insert(out.begin(), static_cast<char>('A' + (n - 1) % 26));
  return out;
}

}  // namespace storage
