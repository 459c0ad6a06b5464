#include "ui/screens/base/form.h"

namespace ui {

namespace {

double digits_of(engine::Date d) {
  return static_cast<double>(static_cast<int>(d.year()) * 10000 +
                             static_cast<int>(static_cast<unsigned>(d.month())) * 100 +
                             static_cast<int>(static_cast<unsigned>(d.day())));
}

void panel_of(Touch& t, const Look&, FormView& v, const FormField& f, const WordsField& edit) {
  TextAsk ask = edit.ask;
  if (ask.title.empty()) ask.title = f.name;
  std::string words;
  if (typed_words(t, v.typing, ask, words)) edit.set(words);
}

void panel_of(Touch& t, const Look&, FormView& v, const FormField& f, const NumberField& edit) {
  NumberAsk ask = edit.ask;
  if (ask.title.empty()) ask.title = f.name;
  double value = 0;
  if (typed_number(t, v.typing, ask, value)) edit.set(value);
}

void panel_of(Touch& t, const Look& look, FormView& v, const FormField& f, const DayField& edit) {
  const int field = v.typing.field;
  NumberAsk ask{v.no_such_day ? "There is no such day" : f.name, "", 20000101, 20991231, 0};
  ask.hint = "year, month, day: 20270301";
  ask.presets = {{"Today", digits_of(look.today())},
                 {"Yesterday", digits_of(plus_days(look.today(), -1))}};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return;
  const auto day = day_typed(value);
  v.no_such_day = !day;
  if (day)
    edit.set(*day);
  else
    start_number(v.typing, field);
}

void panel_of(Touch& t, const Look&, FormView& v, const FormField& f, const OptionsField& edit) {
  const Rect room = dialog_panel(t, f.name);
  std::vector<Row> rows;
  for (std::size_t i = 0; i < edit.list.size(); ++i)
    rows.push_back({.title = edit.list[i], .chosen = static_cast<int>(i) == edit.chosen});
  const auto tapped = list_rows(t, room, v.list_page, rows);
  if (!tapped) return;
  v.typing = {};
  v.list_page = 0;
  edit.set(*tapped);
}

}  // namespace

std::optional<engine::Date> day_typed(double value) {
  const auto n = static_cast<int>(value);
  const engine::Date d{std::chrono::year{n / 10000},
                       std::chrono::month(static_cast<unsigned>(n / 100 % 100)),
                       std::chrono::day(static_cast<unsigned>(n % 100))};
  return d.ok() ? std::optional(d) : std::nullopt;
}

std::optional<int> minute_typed(double value) {
  const auto n = static_cast<int>(value);
  const int hours = n / 100, minutes = n % 100;
  if (hours > 23 || minutes > 59) return std::nullopt;
  return hours * 60 + minutes;
}

bool form_panel(Touch& t, const Look& look, FormView& v, const std::vector<FormField>& fields) {
  const int at = v.typing.field;
  if (at < 0 || at >= static_cast<int>(fields.size())) return false;
  const FormField& f = fields[static_cast<std::size_t>(at)];
  std::visit([&](const auto& edit) { panel_of(t, look, v, f, edit); }, f.edit);
  return true;
}

void form_fields(Touch& t, const Rect& rect, FormView& v, const std::vector<FormField>& fields) {
  const auto tapped = list_rows(t, rect, v.page, fields.size(), [&](std::size_t i) {
    return field(fields[i].name, fields[i].value, fields[i].hint);
  });
  if (!tapped) return;
  const int at = static_cast<int>(*tapped);
  const auto* words = std::get_if<WordsField>(&fields[*tapped].edit);
  if (words != nullptr)
    start_words(v.typing, at, words->now);
  else
    start_number(v.typing, at);
  v.list_page = 0;
  v.no_such_day = false;
}

}  // namespace ui
