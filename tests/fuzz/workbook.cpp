#include "storage/sheets/spreadsheet.h"
#include "storage/sheets/workbook_text.h"
#include "storage/text/utf8.h"
#include "tests/fuzz/targets.h"

void fuzz::workbook(std::string_view bytes) {
  const auto book = storage::workbook_text(bytes);
  if (!book.ok()) {
    const std::string& why = book.status().message();
    must(!why.empty() && why.find('\n') == std::string::npos, "a refused workbook says why");
    return;
  }
  must(!book.value().text.empty(), "a sheet that is taken holds something");
  must(storage::first_line_not_utf8(book.value().text) == 0, "a sheet's text is UTF-8");
  const auto reading = storage::read_spreadsheet(engine::Farm{}, book.value().text,
                                                 std::chrono::year{2026} / 8 / 20);
  must(reading.ok() || !reading.status().message().empty(), "a refused sheet says why");
}
