#include "engine/register/register.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>

#include "engine/register/record_law.h"
#include "storage/disk/whole_file.h"
#include "storage/register/register_files.h"
#include "storage/register/workbook.h"
#include "storage/text/utf8.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

enum class Form { Csv, Html, Pdf, Xlsx, Other };

Form form_of(const RegisterCall& call) {
  const std::string file = call.file != "-"    ? call.file
                           : call.form.empty() ? ".csv"
                                               : "." + call.form;
  if (file.ends_with(".csv")) return Form::Csv;
  if (file.ends_with(".html")) return Form::Html;
  if (file.ends_with(".pdf")) return Form::Pdf;
  if (file.ends_with(".xlsx")) return Form::Xlsx;
  return Form::Other;
}

// Empty: the file may be tried; else what is wrong with the call.
std::string wrong_call(const RegisterCall& call) {
  if (!call.form.empty() && call.file != "-") return "--form: goes with --out -";
  if ((form_of(call) == Form::Pdf || form_of(call) == Form::Xlsx) && call.file == "-" &&
      ::isatty(STDOUT_FILENO) != 0)
    return "--out: such a file is nothing for a terminal; name a file or send it on";
  if (form_of(call) == Form::Other)
    return "--out: the file must end in .csv, .html, .pdf or .xlsx: " + call.file;
  if (const std::string wrong = wrong_out(call.file); !wrong.empty()) return wrong;
  if (!call.law.empty() && call.file == "-") return "--law: goes with a file, not with --out -";
  if (call.from && call.to && *call.from > *call.to) return "--from: is after --to";
  return {};
}

std::vector<engine::RegisterRow> rows_of(const engine::Farm& farm, const engine::LogIndex& book,
                                         engine::RegisterQuery query,
                                         const std::vector<engine::YardId>& yards) {
  query.yard.reset();
  auto rows = engine::register_rows(farm, book, query);
  if (!yards.empty())
    std::erase_if(rows, [&](const engine::RegisterRow& row) {
      return std::find(yards.begin(), yards.end(), row.yard) == yards.end();
    });
  return rows;
}

std::string bytes_of(Form form, const std::vector<engine::RegisterRow>& rows,
                     const storage::RegisterHead& head) {
  if (form == Form::Csv) return storage::register_csv(rows, head.shown);
  if (form == Form::Xlsx) return storage::workbook({}, rows, head);
  return form == Form::Pdf ? storage::register_pdf(rows, head) : storage::register_html(rows, head);
}

bool has_lot(const engine::Farm& farm, const engine::LogIndex& book, const std::string& code) {
  const auto lots = engine::lots_known(farm, book);
  return std::any_of(lots.begin(), lots.end(),
                     [&](const engine::LotWanted& lot) { return lot.code == code; });
}

// How long the law wants the record kept, and what the rows lack by it.
void say_law(engine::RecordLaw law, const std::vector<engine::RegisterRow>& rows) {
  for (const std::string& line : engine::law_says(law)) say("{}\n", line);
  const std::vector<std::string> missing = engine::missing_for(law, rows);
  if (missing.empty()) say("Nothing that it asks of a treatment is missing.\n");
  for (const std::string& line : missing) say("  {}\n", line);
}

}  // namespace

std::vector<engine::YardId> yards_called(const engine::Farm& farm, const std::string& name) {
  std::vector<engine::YardId> ids;
  for (const auto& [id, yard] : farm.yards)
    if (storage::folded(yard.name) == storage::folded(name)) ids.push_back(id);
  return ids;
}

int register_command(const RegisterCall& call, const Surroundings& around) {
  if (const std::string wrong = wrong_call(call); !wrong.empty())
    return say_failure(engine::Code::BadInput, wrong);
  const auto store = open_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  const engine::Farm& farm = store.value().farm();
  engine::LogIndex book;
  book.read_all(farm);
  engine::RegisterQuery query{call.from, call.to, {}};
  if (call.lot) {
    if (!has_lot(farm, book, *call.lot))
      return say_failure(engine::Code::BadInput,
                         fmt::format("--lot: no lot \"{}\" was received or given", *call.lot));
    query.lot = engine::LotWanted{{}, *call.lot};
  }
  std::vector<engine::YardId> yards;
  if (call.yard) {
    yards = yards_called(farm, *call.yard);
    if (yards.empty())
      return say_failure(engine::Code::BadInput,
                         fmt::format("--yard: there is no yard \"{}\"", *call.yard));
    query.yard = yards.front();  // the heading names it
  }
  const storage::Head head = store.value().journal().last(engine::text(store.value().device()));
  const auto rows = rows_of(farm, book, query, yards);
  const std::string bytes =
      bytes_of(form_of(call), rows, storage::head_of(farm, query, storage::hex(head.hash)));
  if (bytes.empty()) return say_failure(engine::Code::Failed, "the file could not be made");
  if (call.file == "-") {
    print_bytes(bytes);
    return 0;
  }
  if (const engine::Status saved = storage::write_whole_file(call.file, bytes); !saved.ok())
    return say_failure(saved);
  say("{}: {} rows\n", call.file, rows.size());
  if (const auto law = engine::from_name<engine::RecordLaw>(call.law)) say_law(*law, rows);
  return 0;
}

}  // namespace ui
