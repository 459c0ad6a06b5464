// ui/screens/base/form.h -- a page of fields: each a row, and behind it letters, keys or a list.
//
// The fields are made anew in each frame from what is being edited; the setters change that. Only
// the place in the list is remembered, so a list must not change while a panel is open.
#pragma once
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "ui/screens/base/form_state.h"
#include "ui/screens/base/layout.h"

namespace ui {

struct WordsField {
  TextAsk ask;
  std::string now;
  std::function<void(const std::string&)> set;
};
struct NumberField {
  NumberAsk ask;
  std::function<void(double)> set;
};
struct DayField {
  std::function<void(engine::Date)> set;
};
struct OptionsField {
  std::vector<std::string> list;
  int chosen = -1;
  std::function<void(std::size_t)> set;
};

struct FormField {
  std::string name;  // the same whatever is in it; no two alike in one form
  std::string value;
  std::string hint{};
  std::variant<WordsField, NumberField, DayField, OptionsField> edit;
};

// The panel of the field that was tapped; true while it covers the screen.
bool form_panel(Touch& t, const Look& look, FormView& v, const std::vector<FormField>& fields);
void form_fields(Touch& t, const Rect& rect, FormView& v, const std::vector<FormField>& fields);

// A day as eight digits, 20270301; nullopt: no day of the calendar.
[[nodiscard]] std::optional<engine::Date> day_typed(double value);
// Minutes of the day from hours and minutes, 2015; nullopt: no such time.
[[nodiscard]] std::optional<int> minute_typed(double value);

}  // namespace ui
