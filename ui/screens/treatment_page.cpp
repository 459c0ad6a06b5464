#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/yards_parts.h"

namespace ui {

namespace {

using engine::Method;
constexpr int kMethod = 1, kProduct = 2, kDose = 3, kRegistration = 4, kLot = 5, kDays = 6,
              kDate = 7;

engine::Body given(const Look& look, const TreatmentDraft& d, const engine::Colony& c) {
  engine::OtherTreatmentGiven e{c.id, plus_days(look.today(), -d.days_ago), d.method};
  e.product = d.product;
  e.registration = d.registration;
  e.lot = d.lot;
  e.dose = d.dose;
  e.withdrawal_days = d.withdrawal_days;
  return e;
}

void choose_method(Touch& t, YardsView& v) {
  const Rect room = dialog_panel(t, "How was it treated?");
  std::vector<Row> rows;
  for (int i = 0; i < 8; ++i) {
    const auto m = static_cast<Method>(i);
    rows.push_back({.title = engine::words(m), .chosen = m == v.treatment.method});
  }
  const auto tapped = list_rows(t, room, v.panel_page, rows);
  if (!tapped) return;
  v.treatment.method = static_cast<Method>(*tapped);
  v.typing = {};
  v.panel_page = 0;
}

bool typing_words(Touch& t, YardsView& v) {
  struct Words {
    int field;
    const char* title;
    std::string TreatmentDraft::*out;
    bool may_be_empty;
  };
  static constexpr Words kWords[] = {
      {kProduct, "Product, as on its label", &TreatmentDraft::product, false},
      {kDose, "Dose: how much was given", &TreatmentDraft::dose, true},
      {kRegistration, "Registration number on the label", &TreatmentDraft::registration, true},
      {kLot, "Lot or batch number", &TreatmentDraft::lot, true}};
  for (const Words& w : kWords) {
    if (v.typing.field != w.field) continue;
    typed_words(t, v.typing, {w.title, 40, w.may_be_empty}, v.treatment.*w.out);
    return true;
  }
  return false;
}

bool typing_numbers(Touch& t, YardsView& v) {
  double value = 0;
  if (v.typing.field == kDays) {
    const NumberAsk ask{
        "Days until honey may be taken (label)", "days", 0, 365, 0, {{"0 days", 0}}};
    if (typed_number(t, v.typing, ask, value))
      v.treatment.withdrawal_days = static_cast<int>(value);
  } else if (v.typing.field == kDate) {
    const NumberAsk ask{"How many days ago?", "days", 0, 365, 0, {{"Today", 0}, {"Yesterday", 1}}};
    if (typed_number(t, v.typing, ask, value)) v.treatment.days_ago = static_cast<int>(value);
  } else {
    return false;
  }
  return true;
}

void fields(Touch& t, const Rect& room, const Look& look, YardsView& v) {
  const TreatmentDraft& d = v.treatment;
  const engine::Date on = plus_days(look.today(), -d.days_ago);
  const Row list[] = {
      field("Method", engine::words(d.method)),
      field("Product", d.product, "as on its label"),
      field("Dose", d.dose, "for example 50 mL, 2 strips"),
      field("Day", day_words(on) + ", " + from_today(on, look.today())),
      field("Withdrawal", fmt::format("{} days", d.withdrawal_days), "the label says how long"),
      field("Registration", d.registration, "number on the label"),
      field("Lot", d.lot, "batch number on the container")};
  constexpr int kFields[] = {kMethod, kProduct, kDose, kDate, kDays, kRegistration, kLot};
  const auto tapped = list_rows(t, room, v.fact_page, list);
  if (!tapped) return;
  const int f = kFields[*tapped];
  if (f == kProduct)
    start_words(v.typing, f, d.product);
  else if (f == kDose)
    start_words(v.typing, f, d.dose);
  else if (f == kRegistration)
    start_words(v.typing, f, d.registration);
  else if (f == kLot)
    start_words(v.typing, f, d.lot);
  else
    start_number(v.typing, f);
}

}  // namespace

Ask treatment_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  if (v.typing.field == kMethod) {
    choose_method(t, v);
    return {};
  }
  if (typing_words(t, v) || typing_numbers(t, v)) return {};
  bool back = false;
  head(t, room, "Other treatment: " + c.name, look.farm.yards.at(c.yard).name, &back);
  const engine::Body body = given(look, v.treatment, c);
  const bool fine = why_not(look, body) == engine::Refusal::None;
  const Act list[] = {{.label = "Save treatment",
                       .second = fine ? "" : "the product is missing",
                       .enabled = fine,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  fields(t, room, look, v);
  if (back || save) v.page_of = YardsPage::None;
  if (back || save) v.fact_page = 0;
  if (!save) return {};
  return body;
}

}  // namespace ui
