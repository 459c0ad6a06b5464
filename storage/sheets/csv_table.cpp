#include "storage/sheets/csv_table.h"

#include <csv.h>
#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "storage/text/utf8.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

constexpr std::size_t kChunk = 64 * 1024;  // how much is read before the limits are looked at

// What libcsv calls back into: one row under way, and where we are.
struct Collector {
  CsvTable table;
  CsvRow row;
  int number = 1;         // of the row under way
  bool after_cr = false;  // a LF right after belongs to the CR
  bool filled = false;    // the row under way has a cell that is not empty

  void cell(std::string text) {
    after_cr = false;
    if (row.cells.size() >= kMostColumns) return cut("has more than 500 columns");
    filled = filled || !text.empty();
    row.cells.push_back(std::move(text));
  }
  void end_row(int by) {
    if (by == '\n' && after_cr) {
      after_cr = false;
      return;
    }
    after_cr = by == '\r';
    if (number > kMostRows) return cut("is more than a spreadsheet holds (1,048,576 rows)");
    row.number = number++;
    if (filled && table.cut_at == 0) table.rows.push_back(std::move(row));
    row = {};
    filled = false;
  }
  void cut(const std::string& why) {
    if (table.cut_at != 0) return;
    table.cut_at = number;
    table.cut_why = why;
  }
};

void on_cell(void* text, std::size_t size, void* to) {
  static_cast<Collector*>(to)->cell(trimmed({static_cast<const char*>(text), size}));
}
void on_row(int by, void* to) { static_cast<Collector*>(to)->end_row(by); }

// Owns libcsv's buffers.
struct Parser {
  csv_parser p{};
  explicit Parser(char delimiter) {
    csv_init(&p, CSV_REPALL_NL);
    csv_set_delim(&p, static_cast<unsigned char>(delimiter));
    csv_set_blk_size(&p, 4096);
  }
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;
  ~Parser() { csv_free(&p); }
};

constexpr const char* kOpenQuote =
    "a quote (\") is opened in this row and never closed, so nothing from here on can be told "
    "apart; close it and save again";

void parse_all(std::string_view text, Parser& parser, Collector& to) {
  while (!text.empty() && to.table.cut_at == 0) {
    const std::string_view piece = text.substr(0, kChunk);
    text.remove_prefix(piece.size());
    if (csv_parse(&parser.p, piece.data(), piece.size(), on_cell, on_row, &to) != piece.size())
      return to.cut(csv_strerror(csv_error(&parser.p)));
    if (parser.p.entry_pos > kLongestCell)
      return to.cut(
          "a cell is longer than any spreadsheet holds; look for a quote (\") that is "
          "opened here and never closed");
  }
  if (to.table.cut_at != 0) return;
  // Lenient about quotes inside of cells, strict about one that is still open at the end.
  csv_set_opts(&parser.p, CSV_REPALL_NL | CSV_STRICT | CSV_STRICT_FINI);
  if (csv_fini(&parser.p, on_cell, on_row, &to) != 0) to.cut(kOpenQuote);
}

bool starts_with(std::string_view text, std::string_view head) { return text.starts_with(head); }

}  // namespace

std::string not_csv(std::string_view text) {
  constexpr const char* kSaveAs = "save it as \"CSV UTF-8\" in the spreadsheet program";
  if (text.size() > kLargestSheet) return "is larger than 64 MB; split it into smaller sheets";
  if (starts_with(text, "PK\x03\x04") || starts_with(text, "\xd0\xcf\x11\xe0"))
    return fmt::format("is a spreadsheet's own file, not CSV; {}", kSaveAs);
  if (starts_with(text, "\xff\xfe") || starts_with(text, "\xfe\xff"))
    return fmt::format("is UTF-16 text; {}", kSaveAs);
  if (text.find('\0') != std::string_view::npos)
    return fmt::format("holds zero bytes, so it is no CSV text or it is damaged; {}", kSaveAs);
  if (const int line = first_line_not_utf8(text); line != 0)
    return fmt::format("line {} is not UTF-8 (Latin-1 or Windows text?); {}", line, kSaveAs);
  if (text.find_first_not_of("\xef\xbb\xbf \t\r\n,;") == std::string_view::npos) return "is empty";
  return {};
}

CsvTable parse_csv(std::string_view text, char delimiter) {
  if (starts_with(text, "\xef\xbb\xbf")) text.remove_prefix(3);
  Collector collector;
  collector.table.delimiter = delimiter;
  Parser parser(delimiter);
  parse_all(text, parser, collector);
  return std::move(collector.table);
}

engine::Result<std::string> read_sheet(const std::string& path) {
  std::error_code failed;
  if (!std::filesystem::exists(path, failed))
    return Status(Code::NotFound, path + ": there is no such file");
  if (!std::filesystem::is_regular_file(path, failed))
    return Status(Code::BadInput, path + ": is no file; give the CSV file itself");
  const auto size = std::filesystem::file_size(path, failed);
  if (!failed && size > kLargestSheet)
    return Status(Code::BadInput, path + ": is larger than 64 MB; split it into smaller sheets");
  std::ifstream in(path, std::ios::binary);
  std::string text(failed ? 0 : size, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (failed || !in) return Status(Code::Failed, path + ": cannot be read");
  return text;
}

}  // namespace storage
