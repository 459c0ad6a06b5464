#include "storage/sheets/spreadsheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <tuple>

#include "storage/sheets/csv_table.h"
#include "storage/sheets/sheet_rows.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

constexpr std::size_t kRowsBetween = 256;  // two reports of the progress
constexpr std::size_t kHead = 256 * 1024;  // enough for any header row

// The delimiter under which the header makes the most sense.
char find_delimiter(std::string_view text) {
  char best = ',';
  std::tuple<int, std::size_t> most{0, 0};
  for (const char delimiter : {',', ';', '\t'}) {
    const CsvTable table = parse_csv(text.substr(0, kHead), delimiter);
    if (table.rows.empty()) continue;
    const CsvRow& header = table.rows.front();
    const std::tuple score{known_headers(header), header.cells.size()};
    if (score > most) {
      most = score;
      best = delimiter;
    }
  }
  return best;
}

// Some spreadsheet programs put "sep=;" before the header, obey it and hide it. Takes that line off
// the front; the delimiter that it names, or '\0' when there is no such line.
char take_sep_line(std::string_view& text) {
  std::string_view rest = text;
  if (rest.starts_with("\xef\xbb\xbf")) rest.remove_prefix(3);
  const std::size_t end = std::min(rest.find_first_of("\r\n"), rest.size());
  std::string_view line = rest.substr(0, end);
  if (line.size() == 7 && line.starts_with("\"sep=") && line.back() == '"')
    line = line.substr(1, 5);
  if (line.size() != 5 || !line.starts_with("sep=") || line.back() == '"') return '\0';
  rest.remove_prefix(end);
  rest.remove_prefix(rest.starts_with("\r\n") ? 2 : std::min<std::size_t>(1, rest.size()));
  text = rest;
  return line.back();
}

constexpr Field kNumbers[] = {Field::Boxes, Field::East,  Field::North, Field::Order, Field::Lat,
                              Field::Lon,   Field::Mites, Field::Bees,  Field::Hours};

// Every cell of a column, header left out.
template <class F>
void each_cell(const CsvTable& table, const Columns& columns, Field field, F&& f) {
  if (!columns.has(field)) return;
  const auto column = static_cast<std::size_t>(columns.column(field));
  for (auto row = table.rows.begin() + 1; row != table.rows.end(); ++row)
    if (column < row->cells.size()) f(std::string_view(row->cells[column]));
}

// Decimal commas, when the file has commas in numbers, no points, and cells are not split at
// commas.
char decimal_mark(const CsvTable& table, const Columns& columns) {
  bool comma = false, point = false;
  for (const Field field : kNumbers)
    each_cell(table, columns, field, [&](std::string_view cell) {
      comma = comma || cell.find(',') != std::string_view::npos;
      point = point || cell.find('.') != std::string_view::npos;
    });
  return table.delimiter != ',' && comma && !point ? ',' : '.';
}

DateOrder order_of_dates(const CsvTable& table, const Columns& columns) {
  std::vector<std::string_view> cells;
  each_cell(table, columns, Field::Date, [&](std::string_view cell) { cells.push_back(cell); });
  return date_order(cells);
}

RowReport take_row(Sheet& sheet, RowCells& row) {
  switch (sheet.columns.sort) {
    case SheetSort::Yards:
      return take_yard(sheet, row);
    case SheetSort::Colonies:
      return take_colony(sheet, row);
    case SheetSort::Counts:
      return take_count(sheet, row);
  }
  return refused(row, "");
}

const char* fate_word(RowFate fate) {
  constexpr const char* kFateWords[] = {"added", "changed", "as before", "refused"};
  return kFateWords[static_cast<std::size_t>(fate)];
}

}  // namespace

int SheetReport::count(RowFate fate) const {
  return static_cast<int>(
      std::count_if(rows.begin(), rows.end(), [&](const RowReport& r) { return r.fate == fate; }));
}

engine::Result<SheetReading> read_spreadsheet(const engine::Farm& farm, std::string_view text,
                                              engine::Date today, const Progress& progress) {
  if (std::string why = not_csv(text); !why.empty()) return Status(Code::BadInput, std::move(why));
  const char named = take_sep_line(text);
  const CsvTable table = parse_csv(text, named == '\0' ? find_delimiter(text) : named);
  if (table.rows.empty())
    return Status(Code::BadInput, table.cut_at
                                      ? fmt::format("row {}: {}", table.cut_at, table.cut_why)
                                      : "holds no rows");
  auto columns = find_columns(table.rows.front());
  if (!columns.ok()) return columns.status();
  SheetFarm scratch(farm, today);
  Sheet sheet{columns.value(),
              scratch,
              order_of_dates(table, columns.value()),
              today,
              decimal_mark(table, columns.value()),
              {},
              {}};
  SheetReading reading;
  reading.report.sort = columns.value().sort;
  reading.report.columns = columns.value().lines;
  for (auto at = table.rows.begin() + 1; at != table.rows.end(); ++at) {
    const auto done = static_cast<std::size_t>(at - table.rows.begin());
    if (progress && done % kRowsBetween == 0) progress("reading rows", done, table.rows.size());
    RowCells row(columns.value(), *at, sheet.mark);
    reading.report.rows.push_back(take_row(sheet, row));
  }
  if (table.cut_at) reading.report.rows.push_back({table.cut_at, RowFate::Refused, table.cut_why});
  reading.events = std::move(scratch).events();
  return reading;
}

std::string report_text(const SheetReport& report) {
  constexpr const char* kHolds[] = {"yards", "colonies", "counts"};
  fmt::memory_buffer out;
  auto to = std::back_inserter(out);
  fmt::format_to(to, "This sheet holds {}.\n", kHolds[static_cast<std::size_t>(report.sort)]);
  for (const std::string& line : report.columns) fmt::format_to(to, "{}\n", line);
  for (const RowReport& row : report.rows)
    fmt::format_to(to, "row {}: {}: {}\n", row.row, fate_word(row.fate), row.what);
  fmt::format_to(to, "{} rows: {} added, {} changed, {} as before, {} refused\n",
                 report.rows.size(), report.count(RowFate::Added), report.count(RowFate::Changed),
                 report.count(RowFate::Same), report.count(RowFate::Refused));
  return fmt::to_string(out);
}

}  // namespace storage
