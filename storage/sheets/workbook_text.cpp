#include "storage/sheets/workbook_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "storage/sheets/csv_table.h"
#include "storage/sheets/workbook_kinds.h"

namespace storage {

using engine::Code;
using engine::Status;

Status no_such_sheet(std::string_view wanted, const std::vector<std::string>& there) {
  if (wanted.empty()) return {Code::BadInput, "holds no cells"};
  return {Code::BadInput, fmt::format("has no sheet \"{}\"; it has: {}", wanted.substr(0, 60),
                                      fmt::join(there, ", "))};
}

bool is_workbook(std::string_view bytes) { return bytes.starts_with("PK\x03\x04"); }

engine::Result<WorkbookText> workbook_text(std::string_view bytes, std::string_view wanted) {
  const auto parts = WorkbookParts::open(bytes);
  if (!parts.ok()) return parts.status();
  if (parts.value().has("_rels/.rels")) return read_xlsx(parts.value(), wanted);
  if (parts.value().has("content.xml")) return read_ods(parts.value(), wanted);
  return Status(Code::BadInput, "is an archive, but no workbook (.xlsx or .ods)");
}

engine::Result<WorkbookText> read_sheet_file(const std::string& path, std::string_view wanted) {
  auto bytes = read_sheet(path);
  if (!bytes.ok()) return bytes.status();
  if (is_workbook(bytes.value())) {
    auto text = workbook_text(bytes.value(), wanted);
    if (!text.ok()) return Status(text.status().code(), path + ": " + text.status().message());
    return text;
  }
  if (!wanted.empty())
    return Status(Code::BadInput, path + ": is no workbook, so it has no sheets to choose from");
  return WorkbookText{std::move(bytes).value(), {}, {}};
}

}  // namespace storage
