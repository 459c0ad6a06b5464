// A sheet of an Office Open XML workbook (.xlsx; ECMA-376 part 1, clause 18) as text.
//
// The workbook names its sheets; relations say in which part each one is. Texts that stand in many
// cells are kept once in a part of their own (shared strings, 18.4); whether a number is a day
// follows from its cell's format (18.8.30, 18.8.31).
#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "engine/core/instant.h"
#include "storage/sheets/csv_table.h"
#include "storage/sheets/sheet_writer.h"
#include "storage/sheets/workbook_kinds.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string_view value_of(const XmlAttributes& all, std::string_view name) {
  const auto found = all.find(name);
  return found == all.end() ? std::string_view{} : std::string_view(found->second);
}

bool is_true(std::string_view word) { return word == "1" || word == "true"; }

template <class Number>
std::optional<Number> number_in(std::string_view text) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool all = error == std::errc{} && end == text.data() + text.size();
  return all ? std::optional(value) : std::nullopt;
}

// Relations of a part (ECMA-376 part 2, clause 9): targets by id and by the last word of the type.
struct Relations : XmlReader {
  std::map<std::string, std::string, std::less<>> by_id, by_type;
  std::string folder;  // what targets are relative to, "xl/"

  explicit Relations(std::string in) : folder(std::move(in)) {}
  void start(std::string_view name, const XmlAttributes& all) override {
    if (name != "Relationship") return;
    const std::string_view target = value_of(all, "Target"), type = value_of(all, "Type");
    const std::string part =
        target.starts_with('/') ? std::string(target.substr(1)) : folder + std::string(target);
    by_id.emplace(value_of(all, "Id"), part);
    by_type.emplace(type.substr(type.rfind('/') + 1), part);
  }
  void end(std::string_view) override {}
  [[nodiscard]] std::string typed(std::string_view type) const {
    const auto found = by_type.find(type);
    return found == by_type.end() ? std::string() : found->second;
  }
};

struct SheetPart {
  std::string name, relation;
};

struct WorkbookPart : XmlReader {
  std::vector<SheetPart> sheets;  // without hidden ones
  bool from_1904 = false;
  void start(std::string_view name, const XmlAttributes& all) override {
    if (name == "workbookPr") from_1904 = is_true(value_of(all, "date1904"));
    if (name != "sheet") return;
    const std::string_view state = value_of(all, "state");
    if (state.empty() || state == "visible")
      sheets.push_back({std::string(value_of(all, "name")), std::string(value_of(all, "id"))});
  }
  void end(std::string_view) override {}
};

// The shared strings. What is said for pronunciation (rPh) is no part of the text.
struct SharedStrings : XmlReader {
  std::vector<std::string> all;
  std::size_t bytes = 0;
  int spoken = 0;
  bool inside = false;
  void start(std::string_view name, const XmlAttributes&) override {
    if (name == "si") all.emplace_back();
    if (name == "rPh") ++spoken;
    inside = name == "t" && spoken == 0 && !all.empty();
  }
  void end(std::string_view name) override {
    if (name == "rPh") --spoken;
    if (name == "t") inside = false;
  }
  void text(std::string_view piece) override {
    if (!inside) return;
    all.back() += piece;
    bytes += piece.size();
  }
  [[nodiscard]] bool enough() const override { return bytes > kLargestSheet; }
};

enum class Shows { Number, Day, Clock };

// What a format's code shows: y and d outside of quotes are a day's, h and s a clock's.
Shows shown_by(std::string_view code) {
  Shows shows = Shows::Number;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == ';') break;  // what follows is for negative numbers and texts
    if (c == '\\' || c == '_' || c == '*') ++i;
    if (c == '"') i = std::min(code.find('"', i + 1), code.size());
    if (c == '[') {
      const std::size_t close = std::min(code.find(']', i), code.size());
      if (i + 1 < code.size() && std::string_view("hHmMsS").find(code[i + 1]) != code.npos)
        shows = Shows::Clock;
      i = close;
    }
    if (c == 'y' || c == 'Y' || c == 'd' || c == 'D') return Shows::Day;
    if (c == 'h' || c == 'H' || c == 's' || c == 'S') shows = Shows::Clock;
  }
  return shows;
}

// The formats that have a number and no code (18.8.30), those of East Asian languages too.
Shows shown_by_number(int id) {
  if ((id >= 14 && id <= 17) || id == 22 || (id >= 27 && id <= 31) || id == 36 ||
      (id >= 50 && id <= 54) || id == 57 || id == 58)
    return Shows::Day;
  if ((id >= 18 && id <= 21) || (id >= 32 && id <= 35) || (id >= 45 && id <= 47) || id == 55 ||
      id == 56)
    return Shows::Clock;
  return Shows::Number;
}

struct Styles : XmlReader {
  std::map<int, Shows> codes;
  std::vector<Shows> cells;  // by the number that a cell has
  bool in_cells = false;
  void start(std::string_view name, const XmlAttributes& all) override {
    if (name == "cellXfs") in_cells = true;
    const int id = number_in<int>(value_of(all, "numFmtId")).value_or(0);
    if (name == "numFmt") codes[id] = shown_by(value_of(all, "formatCode"));
    if (name != "xf" || !in_cells) return;
    const auto own = codes.find(id);
    cells.push_back(own == codes.end() ? shown_by_number(id) : own->second);
  }
  void end(std::string_view name) override {
    if (name == "cellXfs") in_cells = false;
  }
};

// Days since the workbook's first (18.17.4.1): 1900 counts a 29 February that never was.
std::string day_text(double serial, bool from_1904) {
  const auto whole = static_cast<int>(std::floor(serial));
  const bool before_leap = !from_1904 && whole < 61;
  const std::chrono::sys_days first = from_1904     ? std::chrono::year{1904} / 1 / 1
                                      : before_leap ? std::chrono::year{1899} / 12 / 31
                                                    : std::chrono::year{1899} / 12 / 30;
  std::string text = engine::iso_date(engine::Date{first + std::chrono::days{whole}});
  const int minutes = static_cast<int>(std::lround((serial - whole) * 24 * 60));
  return minutes == 0 ? text : fmt::format("{} {:02}:{:02}", text, minutes / 60, minutes % 60);
}

std::string number_text(std::string_view stored, Shows shows, bool from_1904) {
  const auto value = shows == Shows::Number ? std::nullopt : number_in<double>(stored);
  if (!value || *value < 0 || *value >= 2'958'466) return plain_number(stored);  // year 9999
  if (shows == Shows::Day && *value >= 1) return day_text(*value, from_1904);
  // A span of time stays one: as a bare number of days it would be taken for something else.
  const auto minutes = static_cast<long>(std::lround(*value * 24 * 60));
  return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
}

struct Book {
  SharedStrings strings;
  Styles styles;
  bool from_1904 = false;
};

// "C7" is column 2; a name without letters has none.
std::optional<std::size_t> column_in(std::string_view name) {
  std::size_t column = 0;
  for (const char c : name.substr(0, 3))
    if (c >= 'A' && c <= 'Z') column = column * 26 + static_cast<std::size_t>(c - 'A' + 1);
  return column == 0 ? std::nullopt : std::optional(column - 1);
}

class SheetReader : public XmlReader {
 public:
  explicit SheetReader(const Book& book) : book_(book) {}

  void start(std::string_view name, const XmlAttributes& all) override {
    if (name == "row") start_row(all);
    if (name == "c") start_cell(all);
    if (name == "rPh") ++spoken_;
    inside_ = spoken_ == 0 && (name == "v" || name == "t");
  }
  void end(std::string_view name) override {
    if (name == "rPh") --spoken_;
    if (name == "c") writer_.cell(row_, column_++, words());
    inside_ = false;
  }
  void text(std::string_view piece) override {
    if (inside_ && value_.size() <= kLongestCell) value_ += piece;
  }
  [[nodiscard]] bool enough() const override { return !writer_.wrong().empty(); }
  SheetWriter& writer() { return writer_; }

 private:
  void start_row(const XmlAttributes& all) {
    const auto number = number_in<std::size_t>(value_of(all, "r"));
    row_ = number && *number > 0 ? *number - 1 : next_row_;
    next_row_ = row_ + 1;
    column_ = 0;
  }
  void start_cell(const XmlAttributes& all) {
    column_ = column_in(value_of(all, "r")).value_or(column_);
    type_ = value_of(all, "t");
    style_ = number_in<std::size_t>(value_of(all, "s")).value_or(0);
    value_.clear();
  }
  [[nodiscard]] std::string words() const {
    if (type_ == "s") {
      const auto at = number_in<std::size_t>(value_);
      const auto& all = book_.strings.all;
      return at && *at < all.size() ? all[*at] : std::string();
    }
    if (type_ == "b") return is_true(value_) ? "true" : "false";
    if (!type_.empty() && type_ != "n") return value_;
    const auto& styles = book_.styles.cells;
    return number_text(value_, style_ < styles.size() ? styles[style_] : Shows::Number,
                       book_.from_1904);
  }

  const Book& book_;
  SheetWriter writer_;
  std::string type_, value_;
  std::size_t style_ = 0, row_ = 0, next_row_ = 0, column_ = 0;
  int spoken_ = 0;
  bool inside_ = false;
};

// A part that a workbook may do without.
Status read_if_there(const WorkbookParts& parts, const std::string& part, XmlReader& to) {
  return part.empty() || !parts.has(part) ? Status{} : parts.read(part, to);
}

std::string folder_of(const std::string& part) { return part.substr(0, part.rfind('/') + 1); }

std::string relations_of(const std::string& part) {
  const std::string folder = folder_of(part);
  return folder + "_rels/" + part.substr(folder.size()) + ".rels";
}

Status read_sheets(const WorkbookParts& parts, const WorkbookPart& workbook,
                   const Relations& relations, const Book& book, std::string_view wanted,
                   WorkbookText& found) {
  for (const SheetPart& sheet : workbook.sheets) {
    const bool this_one = wanted.empty() ? found.text.empty() : sheet.name == wanted;
    const auto part = relations.by_id.find(sheet.relation);
    if (!this_one || part == relations.by_id.end()) {
      found.others.push_back(sheet.name);
      continue;
    }
    SheetReader reader(book);
    if (Status s = parts.read(part->second, reader); !s.ok()) return s;
    if (const std::string& wrong = reader.writer().wrong(); !wrong.empty())
      return {Code::BadInput, fmt::format("sheet \"{}\": {}", sheet.name, wrong)};
    if (reader.writer().empty()) continue;
    found.text = std::move(reader.writer()).text();
    found.sheet = sheet.name;
  }
  return found.text.empty() ? no_such_sheet(wanted, found.others) : Status{};
}

}  // namespace

engine::Result<WorkbookText> read_xlsx(const WorkbookParts& parts, std::string_view wanted) {
  Relations top("");
  if (Status s = parts.read("_rels/.rels", top); !s.ok()) return s;
  const std::string main = top.typed("officeDocument");
  Relations relations(folder_of(main));
  WorkbookPart workbook;
  if (Status s = read_if_there(parts, relations_of(main), relations); !s.ok()) return s;
  if (Status s = read_if_there(parts, main, workbook); !s.ok()) return s;
  if (workbook.sheets.empty())
    return Status(Code::BadInput, "is an archive, but no workbook (.xlsx or .ods)");
  Book book;
  book.from_1904 = workbook.from_1904;
  if (Status s = read_if_there(parts, relations.typed("sharedStrings"), book.strings); !s.ok())
    return s;
  if (book.strings.enough())
    return Status(Code::BadInput, "holds more than 64 MB of text; split it into smaller sheets");
  if (Status s = read_if_there(parts, relations.typed("styles"), book.styles); !s.ok()) return s;
  WorkbookText found;
  if (Status s = read_sheets(parts, workbook, relations, book, wanted, found); !s.ok()) return s;
  return found;
}

}  // namespace storage
