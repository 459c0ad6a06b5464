// A sheet of an OpenDocument workbook (.ods; OpenDocument 1.3 part 3, clause 9) as text.
//
// All sheets stand in one part. Equal cells and rows next to each other may stand there once, with
// how often they are repeated.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "storage/sheets/csv_table.h"
#include "storage/sheets/sheet_writer.h"
#include "storage/sheets/workbook_kinds.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

std::string attribute(const XmlAttributes& all, std::string_view name) {
  const auto found = all.find(name);
  return found == all.end() ? std::string() : found->second;
}

std::size_t times(const XmlAttributes& all, std::string_view name) {
  const std::string text = attribute(all, name);
  std::size_t value = 1;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return std::clamp<std::size_t>(value, 1, std::size_t{1} << 21);
}

// "2026-08-14T19:40:00" is written "2026-08-14 19:40:00"; a midnight was no time that was meant.
std::string day_text(std::string day) {
  if (day.size() > 10 && day[10] == 'T') day[10] = ' ';
  return day.ends_with(" 00:00:00") ? day.substr(0, 10) : day;
}

// "PT72H30M00S" is a span of time.
std::string clock_text(const std::string& span) {
  int hours = 0, minutes = 0;
  if (std::sscanf(span.c_str(), "PT%dH%dM", &hours, &minutes) != 2) return span;
  return fmt::format("{}:{:02}", hours, minutes);
}

// A hidden sheet has a style that says so.
class OdsReader : public XmlReader {
 public:
  explicit OdsReader(std::string_view wanted) : wanted_(wanted) {}

  void start(std::string_view name, const XmlAttributes& all) override {
    if (name == "style") style_ = attribute(all, "name");
    if (name == "table-properties" && attribute(all, "display") == "false")
      hidden_.push_back(style_);
    if (name == "table") start_table(all);
    if (!reading_) return;
    if (name == "table-row") start_row(all);
    if (name == "table-cell" || name == "covered-table-cell") start_cell(all);
    if (name == "annotation") ++beside_;
    if (!in_cell_ || beside_ > 0) return;
    if (name == "p" && paragraphs_++ > 0) value_ += '\n';
    if (name == "p") ++in_paragraph_;
    if (name == "s") value_.append(std::min<std::size_t>(times(all, "c"), kLongestCell), ' ');
    if (name == "tab") value_ += ' ';
    if (name == "line-break") value_ += '\n';
  }
  void end(std::string_view name) override {
    if (name == "table" && reading_) end_table();
    if (!reading_) return;
    if (name == "annotation") --beside_;
    if (name == "p" && in_cell_ && beside_ == 0) --in_paragraph_;
    if (name == "table-cell" || name == "covered-table-cell") end_cell();
    if (name == "table-row") end_row();
  }
  void text(std::string_view piece) override {
    if (in_paragraph_ > 0 && beside_ == 0 && value_.size() <= kLongestCell) value_ += piece;
  }
  [[nodiscard]] bool enough() const override { return !wrong.empty(); }

  WorkbookText found;
  std::string wrong;

 private:
  struct Cell {
    std::size_t column, times;
    std::string text;
  };

  void start_table(const XmlAttributes& all) {
    const std::string name = attribute(all, "name"), style = attribute(all, "style-name");
    if (std::find(hidden_.begin(), hidden_.end(), style) != hidden_.end()) return;
    reading_ = wanted_.empty() ? found.text.empty() : name == wanted_;
    if (!reading_) found.others.push_back(name);
    sheet_ = name;
    writer_ = {};
    row_ = 0;
  }
  void end_table() {
    reading_ = false;
    if (writer_.empty()) return;
    found.text = std::move(writer_).text();
    found.sheet = sheet_;
  }
  void start_row(const XmlAttributes& all) {
    rows_ = times(all, "number-rows-repeated");
    column_ = 0;
    cells_.clear();
  }
  void end_row() {
    const std::size_t after = row_ + rows_;
    for (; !cells_.empty() && row_ < after && wrong.empty(); ++row_)
      for (const Cell& cell : cells_)
        for (std::size_t i = 0; i < cell.times && wrong.empty(); ++i) {
          writer_.cell(row_, cell.column + i, cell.text);
          if (!writer_.wrong().empty())
            wrong = fmt::format("sheet \"{}\": {}", sheet_, writer_.wrong());
        }
    row_ = after;
  }
  void start_cell(const XmlAttributes& all) {
    in_cell_ = true;
    columns_ = times(all, "number-columns-repeated");
    paragraphs_ = 0;
    in_paragraph_ = 0;
    value_.clear();
    type_ = attribute(all, "value-type");
    typed_ = type_ == "date"      ? day_text(attribute(all, "date-value"))
             : type_ == "time"    ? clock_text(attribute(all, "time-value"))
             : type_ == "boolean" ? attribute(all, "boolean-value")
             : type_ == "string"  ? attribute(all, "string-value")
             : type_.empty()      ? std::string()
                                  : plain_number(attribute(all, "value"));
  }
  void end_cell() {
    in_cell_ = false;
    std::string text = typed_.empty() ? value_ : typed_;
    if (!text.empty()) cells_.push_back({column_, columns_, std::move(text)});
    column_ += columns_;
  }

  std::string_view wanted_;
  std::vector<std::string> hidden_;
  std::string style_, sheet_, type_, typed_, value_;
  SheetWriter writer_;
  std::vector<Cell> cells_;
  std::size_t row_ = 0, rows_ = 1, column_ = 0, columns_ = 1;
  int paragraphs_ = 0, in_paragraph_ = 0, beside_ = 0;
  bool reading_ = false, in_cell_ = false;
};

}  // namespace

engine::Result<WorkbookText> read_ods(const WorkbookParts& parts, std::string_view wanted) {
  OdsReader reader(wanted);
  if (Status s = parts.read("content.xml", reader); !s.ok()) return s;
  if (!reader.wrong.empty()) return Status(Code::BadInput, reader.wrong);
  if (reader.found.text.empty()) return no_such_sheet(wanted, reader.found.others);
  return std::move(reader.found);
}

}  // namespace storage
