#include "storage/sheet_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "storage/utf8.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

struct Word {
  std::string_view text;
  Field field;
  bool weak = false;  // gives way to a column with a stronger word
};

// Common words of the trade, written without spaces and in the singular.
constexpr Word kWords[] = {
    {"yard", Field::Yard},
    {"apiary", Field::Yard},
    {"beeyard", Field::Yard},
    {"yardname", Field::Yard},
    {"apiaryname", Field::Yard},
    {"colmenar", Field::Yard},
    {"apiario", Field::Yard},
    {"site", Field::Yard, true},
    {"location", Field::Yard, true},
    {"colony", Field::Colony},
    {"hive", Field::Colony},
    {"colonyid", Field::Colony},
    {"hiveid", Field::Colony},
    {"colonyname", Field::Colony},
    {"hivename", Field::Colony},
    {"colonyno", Field::Colony},
    {"hiveno", Field::Colony},
    {"colonynr", Field::Colony},
    {"hivenr", Field::Colony},
    {"colonynumber", Field::Colony},
    {"hivenumber", Field::Colony},
    {"colmena", Field::Colony},
    {"colonia", Field::Colony},
    {"broodbox", Field::Boxes},
    {"box", Field::Boxes},
    {"brood", Field::Boxes, true},
    {"chamber", Field::Boxes},
    {"broodchamber", Field::Boxes},
    {"broodbody", Field::Boxes},
    {"hivebody", Field::Boxes},
    {"deep", Field::Boxes, true},
    {"super", Field::Supers},
    {"honeysuper", Field::Supers},
    {"superon", Field::Supers},
    {"superson", Field::Supers},
    {"honeysuperson", Field::Supers},
    {"x", Field::East},
    {"east", Field::East},
    {"y", Field::North},
    {"north", Field::North},
    {"order", Field::Order},
    {"position", Field::Order},
    {"walkorder", Field::Order},
    {"stop", Field::Order, true},
    {"lat", Field::Lat},
    {"latitude", Field::Lat},
    {"lon", Field::Lon},
    {"lng", Field::Lon},
    {"long", Field::Lon},
    {"longitude", Field::Lon},
    {"zone", Field::Zone},
    {"timezone", Field::Zone},
    {"note", Field::Note},
    {"remark", Field::Note, true},
    {"comment", Field::Note, true},
    {"nota", Field::Note, true},
    {"date", Field::Date},
    {"day", Field::Date, true},
    {"countdate", Field::Date},
    {"dateofcount", Field::Date},
    {"datecounted", Field::Date},
    {"sampledate", Field::Date},
    {"fecha", Field::Date},
    {"method", Field::Method},
    {"countmethod", Field::Method},
    {"samplemethod", Field::Method},
    {"test", Field::Method, true},
    {"mite", Field::Mites},
    {"mitecount", Field::Mites},
    {"mitescounted", Field::Mites},
    {"varroa", Field::Mites, true},
    {"acaro", Field::Mites},
    {"bee", Field::Bees},
    {"beecount", Field::Bees},
    {"beescounted", Field::Bees},
    {"samplesize", Field::Bees, true},
    {"abeja", Field::Bees},
    {"hour", Field::Hours},
    {"hr", Field::Hours},
    {"boardhour", Field::Hours},
    {"hoursonboard", Field::Hours},
    {"hora", Field::Hours},
};

// "name" and the like mean the colony beside a yard, or the yard on a sheet of yards.
constexpr std::string_view kNameWords[] = {"name", "id", "number", "no", "nr", "nombre"};

// The days a board lay are no date: this plural is not what its singular is.
constexpr std::string_view kNoPlural[] = {"days"};

const Word* find_word(std::string_view text) {
  const auto* found = std::find_if(std::begin(kWords), std::end(kWords),
                                   [&](const Word& w) { return w.text == text; });
  return found == std::end(kWords) ? nullptr : found;
}

const Word* find_word_or_plural(const std::string& text) {
  if (const Word* word = find_word(text)) return word;
  if (std::find(std::begin(kNoPlural), std::end(kNoPlural), text) != std::end(kNoPlural))
    return nullptr;
  if (text.ends_with("ies"))
    if (const Word* word = find_word(text.substr(0, text.size() - 3) + "y")) return word;
  if (text.ends_with("es"))
    if (const Word* word = find_word(text.substr(0, text.size() - 2))) return word;
  return text.ends_with("s") ? find_word(text.substr(0, text.size() - 1)) : nullptr;
}

// A header as words; what stands in brackets is its unit.
struct Header {
  std::vector<std::string> words;
  std::string unit;

  [[nodiscard]] std::string joined() const {
    std::string out;
    for (const std::string& w : words) out += w;
    return out;
  }
};

bool is_word_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

Header split(std::string_view text) {
  Header h;
  bool inside = false;
  bool fresh = true;
  for (const char c : folded(text)) {
    if (c == '(' || c == '[') inside = true;
    if (c == '%') h.unit += '%';
    if (!is_word_char(c)) fresh = true;
    if (!is_word_char(c)) continue;
    if (inside) {
      h.unit += c;
      continue;
    }
    if (fresh) h.words.emplace_back();
    fresh = false;
    h.words.back() += c;
  }
  return h;
}

constexpr std::string_view kCountUnits[] = {"", "count", "n", "no", "number", "total"};

std::optional<int> unit_mm(std::string_view unit) {
  for (const std::string_view m : {"", "m", "metre", "metres", "meter", "meters"})
    if (unit == m) return 1000;
  if (unit == "cm") return 10;
  return std::nullopt;
}

bool is_feet(std::string_view unit) { return unit == "ft" || unit == "feet" || unit == "foot"; }

struct Meaning {
  const Word* word = nullptr;
  std::string unit;
};

bool unit_fits(Field field, const std::string& unit) {
  switch (field) {
    case Field::East:
    case Field::North:
      return unit_mm(unit) || is_feet(unit);
    case Field::Mites:  // "mites (per 100 bees)" and "mites %" are no counts
    case Field::Bees:
    case Field::Boxes:
      return std::find(std::begin(kCountUnits), std::end(kCountUnits), unit) !=
             std::end(kCountUnits);
    case Field::Hours:
      return unit.empty() || unit == "h" || unit == "hr" || unit == "hrs" || unit == "hours";
    default:
      return unit.find('%') == std::string::npos;
  }
}

Meaning meaning(std::string_view text) {
  Header h = split(text);
  const Word* word = find_word_or_plural(h.joined());
  if (word == nullptr && h.words.size() > 1 && h.unit.empty()) {
    h.unit = h.words.back();
    h.words.pop_back();
    word = find_word_or_plural(h.joined());
    const bool measured = word && (word->field == Field::East || word->field == Field::North ||
                                   word->field == Field::Mites || word->field == Field::Bees ||
                                   word->field == Field::Boxes || word->field == Field::Hours);
    if (!measured) word = nullptr;
  }
  if (word && !unit_fits(word->field, h.unit)) word = nullptr;
  return {word, h.unit};
}

bool is_name_word(std::string_view text) {
  const std::string joined = split(text).joined();
  return std::find(std::begin(kNameWords), std::end(kNameWords), joined) != std::end(kNameWords);
}

std::string field_name(Field f) {
  constexpr const char* kNames[kFields] = {
      "the yard",      "the colony",    "the brood boxes", "honey supers",
      "metres east",   "metres north",  "the order",       "the latitude",
      "the longitude", "the time zone", "notes",           "the date",
      "the method",    "the mites",     "the bees",        "the hours"};
  return kNames[static_cast<std::size_t>(f)];
}

// Gives each column to the field it means; of two, the stronger word wins.
class Assigner {
 public:
  explicit Assigner(const CsvRow& header) : header_(header), meanings_(header.cells.size()) {
    columns_.at.fill(-1);
    columns_.width = header.cells.size();
    for (std::size_t i = 0; i < header.cells.size(); ++i) meanings_[i] = meaning(header.cells[i]);
  }

  engine::Result<Columns> run() {
    for (std::size_t i = 0; i < meanings_.size(); ++i)
      if (meanings_[i].word) assign(i, *meanings_[i].word);
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

  void assign(std::size_t i, const Word& word) {
    int& at = slot(word.field);
    const auto mine = static_cast<int>(i);
    if (at < 0) {
      at = mine;
      return;
    }
    const Word& other = *meanings_[static_cast<std::size_t>(at)].word;
    if (other.weak && !word.weak) {
      at = mine;
      return;
    }
    if (other.weak == word.weak && word.field != Field::Note && wrong_.empty())
      wrong_ = fmt::format("row {}: columns {} (\"{}\") and {} (\"{}\") both say {}; keep one",
                           header_.number, column_letters(static_cast<std::size_t>(at)),
                           header_.cells[static_cast<std::size_t>(at)], column_letters(i),
                           header_.cells[i], field_name(word.field));
  }

  void assign_name() {
    const auto named = std::find_if(header_.cells.begin(), header_.cells.end(), is_name_word);
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

  // What this sort of sheet has no place for is kept as a note.
  void drop_unused() {
    using enum Field;
    std::vector<Field> unused = {Date, Method, Bees, Hours};
    if (columns_.sort == SheetSort::Yards)
      unused.insert(unused.end(), {Boxes, Supers, East, North, Order});
    if (columns_.sort == SheetSort::Counts)
      unused = {Boxes, Supers, East, North, Order, Lat, Lon, Zone};
    if (has(Lat) != has(Lon)) unused.insert(unused.end(), {Lat, Lon});
    if (has(East) != has(North)) unused.insert(unused.end(), {East, North});
    for (const Field f : unused) slot(f) = -1;
  }

  void take_units() {
    for (const Field f : {Field::East, Field::North}) {
      if (!has(f)) continue;
      const std::string& unit = meanings_[static_cast<std::size_t>(slot(f))].unit;
      columns_.unit_tenth_mm[f == Field::North] =
          is_feet(unit) ? 3048 : 10 * unit_mm(unit).value_or(1000);
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
      columns_.extras.push_back({i, text.empty() ? "column " + column_letters(i) : one_line(text)});
      if (!text.empty())
        columns_.lines.push_back(
            fmt::format("column {} \"{}\": not known, kept in the notes", column_letters(i), text));
    }
  }

  const CsvRow& header_;
  std::vector<Meaning> meanings_;
  Columns columns_;
  std::string wrong_;
};

}  // namespace

engine::Result<Columns> find_columns(const CsvRow& header) { return Assigner(header).run(); }

int known_headers(const CsvRow& header) {
  return static_cast<int>(std::count_if(
      header.cells.begin(), header.cells.end(),
      [](const std::string& cell) { return meaning(cell).word != nullptr || is_name_word(cell); }));
}

std::string column_letters(std::size_t column) {
  std::string out;
  for (std::size_t n = column + 1; n > 0; n = (n - 1) / 26)
    out.insert(out.begin(), static_cast<char>('A' + (n - 1) % 26));
  return out;
}

}  // namespace storage
