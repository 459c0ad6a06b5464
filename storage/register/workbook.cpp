#include "storage/register/workbook.h"

#include <sys/mman.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <ctime>
#include <memory>

#include "storage/register/register_tables.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

constexpr std::size_t kLongest = 32'000;  // bytes of a cell; the format ends at 32,767 letters

// "dose_mg" is "dose (g)" for people.
std::string title_of(std::string_view column) {
  constexpr std::pair<std::string_view, std::string_view> kUnits[] = {{"_mg", " (g)"},
                                                                      {"_tenths_c", " (°C)"},
                                                                      {"_tenths_m_s", " (m/s)"},
                                                                      {"_deg", " (deg)"},
                                                                      {"_s", " (s)"}};
  std::string title(column);
  for (const auto& [end, unit] : kUnits) {
    if (!title.ends_with(end)) continue;
    title.replace(title.size() - end.size(), end.size(), unit);
    break;
  }
  std::replace(title.begin(), title.end(), '_', ' ');
  return title;
}

// XML 1.0 has no U+FFFE and U+FFFF, and no cell holds more than so much. What was cut ends in
// "...".
std::string fit(std::string_view cell) {
  std::string text(cell);
  std::erase(text, '\0');
  for (const char* none : {"\xef\xbf\xbe", "\xef\xbf\xbf"})
    for (std::size_t at = text.find(none); at != text.npos; at = text.find(none, at))
      text.replace(at, 3, "\xef\xbf\xbd");
  if (text.size() <= kLongest) return text;
  std::size_t cut = kLongest;
  while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xc0) == 0x80) --cut;
  return text.substr(0, cut) + "...";
}

struct Looks {
  lxw_format *head, *grams, *tenths, *day, *wrapped;

  explicit Looks(lxw_workbook* book)
      : head(workbook_add_format(book)),
        grams(workbook_add_format(book)),
        tenths(workbook_add_format(book)),
        day(workbook_add_format(book)),
        wrapped(workbook_add_format(book)) {
    format_set_bold(head);
    format_set_text_wrap(head);
    format_set_num_format(grams, "0.000");
    format_set_num_format(tenths, "0.0");
    format_set_num_format(day, "yyyy\\-mm\\-dd");
    format_set_text_wrap(wrapped);
    for (lxw_format* each : {head, grams, tenths, day, wrapped})
      format_set_align(each, LXW_ALIGN_VERTICAL_TOP);
  }
};

// One table as a sheet of the book.
class SheetOut : public TableOut {
 public:
  SheetOut(lxw_workbook* book, const char* title, const Looks& looks)
      : sheet_(workbook_add_worksheet(book, title)), looks_(looks) {}

  void name(std::string_view column) override {
    const std::string title = title_of(column);
    widths_.push_back(std::clamp<std::size_t>(title.size() + 3, 9, 18));
    write(title, looks_.head);
  }
  void text(std::string_view cell) override {
    widen(cell.size());
    cell.empty() ? empty() : write(fit(cell), looks_.wrapped);
  }
  void as_it_is(std::string_view cell) override { text(cell); }
  void number(std::int64_t cell) override { number(static_cast<double>(cell), nullptr); }
  void milligrams(engine::Mass mass) override {
    number(static_cast<double>(mass.mg) / 1000, looks_.grams);
  }
  void tenths(std::int64_t tenths) override {
    number(static_cast<double>(tenths) / 10, looks_.tenths);
  }
  void day(const std::optional<engine::Date>& day) override {
    if (!day) return empty();
    lxw_datetime at{static_cast<int>(day->year()),
                    static_cast<int>(unsigned(day->month())),
                    static_cast<int>(unsigned(day->day())),
                    0,
                    0,
                    0};
    widen(10);
    // Before 1900 the format has no days: text.
    if (day->year() < std::chrono::year{1900} || day->year() > std::chrono::year{9999})
      return text(engine::iso_date(*day));
    worksheet_write_datetime(sheet_, row_, column_++, &at, looks_.day);
  }
  void empty() override { ++column_; }
  void end_row() override {
    if (row_ == 0) columns_ = column_;
    ++row_;
    column_ = 0;
  }

  void finish(std::size_t left_out) {
    if (left_out > 0) {
      text(std::to_string(left_out) + " more rows are in the CSV file");
      end_row();
    }
    worksheet_freeze_panes(sheet_, 1, 0);
    const lxw_row_t last = std::max<lxw_row_t>(row_, 2) - 1;
    worksheet_autofilter(sheet_, 0, 0, last, static_cast<lxw_col_t>(columns_ - 1));
    for (std::size_t i = 0; i < widths_.size(); ++i) {
      const auto at = static_cast<lxw_col_t>(i);
      worksheet_set_column(sheet_, at, at, static_cast<double>(widths_[i]), nullptr);
    }
    worksheet_set_landscape(sheet_);
    worksheet_fit_to_pages(sheet_, 1, 0);
    worksheet_repeat_rows(sheet_, 0, 0);
  }

 private:
  void number(double cell, lxw_format* look) {
    worksheet_write_number(sheet_, row_, column_++, cell, look);
  }
  void write(const std::string& text, lxw_format* look) {
    worksheet_write_string(sheet_, row_, column_++, text.c_str(), look);
  }
  void widen(std::size_t letters) {
    if (column_ >= widths_.size()) return;
    widths_[column_] = std::clamp<std::size_t>(letters + 2, widths_[column_], 40);
  }

  lxw_worksheet* sheet_;
  const Looks& looks_;
  std::vector<std::size_t> widths_;
  lxw_row_t row_ = 0;
  lxw_col_t column_ = 0, columns_ = 1;
};

template <class Row>
std::span<const Row> some_of(const std::vector<Row>& rows) {
  return {rows.data(), std::min(rows.size(), kMostWorkbookRows)};
}

template <class Row, class Write>
void add_sheet(lxw_workbook* book, const char* title, const Looks& looks,
               const std::vector<Row>& rows, Write write) {
  SheetOut sheet(book, title, looks);
  write(sheet, some_of(rows));
  sheet.finish(rows.size() - some_of(rows).size());
}

// The writer makes files alone: this one is memory with a name, and is gone with its descriptor.
class MemoryFile {
 public:
  MemoryFile() : fd_(::memfd_create("workbook", MFD_CLOEXEC)) {}
  ~MemoryFile() {
    if (fd_ >= 0) ::close(fd_);
  }
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;

  [[nodiscard]] bool there() const { return fd_ >= 0; }
  [[nodiscard]] std::string path() const { return "/proc/self/fd/" + std::to_string(fd_); }
  [[nodiscard]] std::string bytes() const {
    std::string all;
    char piece[1 << 16];
    for (ssize_t got = 0;
         (got = ::pread(fd_, piece, sizeof piece, static_cast<off_t>(all.size()))) > 0;)
      all.append(piece, static_cast<std::size_t>(got));
    return all;
  }

 private:
  int fd_;
};

}  // namespace

std::string workbook(const std::vector<engine::DayRow>& day,
                     const std::vector<engine::RegisterRow>& rows, const RegisterHead& head) {
  const MemoryFile file;
  if (!file.there()) return {};
  const std::string path = file.path();
  lxw_workbook* book = workbook_new(path.c_str());
  if (book == nullptr) return {};
  lxw_doc_properties about{};
  about.created = static_cast<std::time_t>(head.as_of.at.time_since_epoch().count() / 1000);
  workbook_set_properties(book, &about);
  const Looks looks(book);
  add_sheet(book, "Day", looks, day, day_table);
  add_sheet(book, "Register", looks, rows,
            [&](TableOut& out, std::span<const engine::RegisterRow> some) {
              register_table(out, some, head.shown);
            });
  add_sheet(book, "Stock", looks, head.stock, stock_table);
  return workbook_close(book) == LXW_NO_ERROR ? file.bytes() : std::string();
}

}  // namespace storage
