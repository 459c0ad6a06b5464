#include "engine/farm/views.h"
#include "engine/register/register.h"

#include <fmt/format.h>

#include "storage/register_files.h"
#include "storage/whole_file.h"
#include "ui/commands/commands.h"

namespace ui {
namespace {

enum class Form { Csv, Html, Other };

Form form_of(const std::string& file) {
  if (file.ends_with(".csv")) return Form::Csv;
  if (file.ends_with(".html")) return Form::Html;
  return Form::Other;
}

}  // namespace

int register_command(const RegisterCall& call, const Surroundings& around) {
  const Form form = form_of(call.file);
  if (form == Form::Other)
    return say_failure(engine::Code::BadInput,
                       "--out: the file must end in .csv or .html: " + call.file);
  if (call.from && call.to && *call.from > *call.to)
    return say_failure(engine::Code::BadInput, "--from: is after --to");
  const auto store = open_store(call, around, false);
  if (!store.ok()) return say_failure(store.status());
  const engine::Farm& farm = store.value().farm();
  engine::RegisterQuery query{call.from, call.to, {}};
  if (!call.yard.empty()) {
    const engine::Yard* yard = engine::find_yard(farm, call.yard);
    if (yard == nullptr)
      return say_failure(engine::Code::BadInput, "--yard: there is no yard " + call.yard);
    query.yard = yard->id;
  }
  const storage::Head head = store.value().journal().last(engine::text(store.value().device()));
  const auto rows = engine::register_rows(farm, query);
  const std::string text =
      form == Form::Csv
          ? storage::register_csv(rows, engine::units_of(farm.setup))
          : storage::register_html(rows, storage::head_of(farm, query, storage::hex(head.hash)));
  if (const engine::Status saved = storage::write_whole_file(call.file, text); !saved.ok())
    return say_failure(saved);
  fmt::print("{}: {} rows\n", call.file, rows.size());
  return 0;
}

}  // namespace ui
