// One function a kind: what of such an entry may be edited.
#include "ui/screens/base/body_fields.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/farm/queries.h"
#include "engine/words/lookup.h"

namespace ui {

namespace {

using Fields = std::vector<FormField>;
constexpr double kMostDose = 100, kMostStock = 30'000;  // g; far beyond any label and any tin
constexpr int kMostBoxes = 9;

// Optional words: what is empty was not said.
FormField said_field(std::string name, std::optional<std::string>& words, std::string hint = {}) {
  return words_field(
      std::move(name), words.value_or(""),
      [&words](const std::string& typed) {
        words = typed.empty() ? std::nullopt : std::optional(typed);
      },
      std::move(hint));
}

FormField text_field(std::string name, std::string& words, std::string hint = {}) {
  return words_field(
      std::move(name), words, [&words](const std::string& typed) { words = typed; },
      std::move(hint));
}

FormField boxes_field(int& boxes) {
  return number_field("Brood boxes", std::to_string(boxes), {"Brood boxes", "", 1, kMostBoxes},
                      [&boxes](double v) { boxes = static_cast<int>(v); });
}

FormField supers_field(bool& on) {
  return options_field("Honey supers", {"none on", "on"}, on ? 1 : 0,
                       [&on](std::size_t i) { on = i == 1; });
}

FormField battery_field(const Look& look, std::optional<engine::KitId>& battery) {
  std::vector<std::pair<engine::KitId, std::string>> known;
  for (const engine::KitItem* b : engine::kit_of(look.farm, engine::KitSort::Battery))
    known.emplace_back(b->id, engine::kit_called(look.farm, b->id));
  return maybe_field("Battery", known, battery);
}

// Among the colonies of the yard it stands in.
FormField colony_field(const Look& look, engine::ColonyId& colony) {
  std::vector<std::string> list;
  std::vector<engine::ColonyId> ids;
  int chosen = -1;
  const auto now = look.farm.colonies.find(colony);
  if (now != look.farm.colonies.end())
    for (const engine::Colony* c : engine::colonies_of(look.farm, now->second.yard)) {
      if (c->id == colony) chosen = static_cast<int>(ids.size());
      ids.push_back(c->id);
      list.push_back(c->name);
    }
  FormField f = options_field("Colony", std::move(list), chosen,
                              [ids, &colony](std::size_t i) { colony = ids[i]; });
  if (f.value.empty()) f.value = engine::colony_called(look.farm, colony);
  return f;
}

Fields fields_for(const Look&, engine::NoteWritten& b) { return {text_field("Note", b.text)}; }

Fields fields_for(const Look& look, engine::VaporizerSet& b) {
  return {mass_field(look, "Dose", b.dose, kMostDose), boxes_field(b.brood_boxes),
          supers_field(b.supers_on), lot_field(look, b.lot), battery_field(look, b.battery)};
}

Fields fields_for(const Look&, engine::ColonyPassedOver& b) {
  return {enum_field("Passed over", b.reason), text_field("Note", b.note)};
}

FormField passed_field(engine::EnteredLate& b) {
  return given_or_passed_field(b.passed, [&b](std::optional<engine::PassReason> passed) {
    b.passed = passed;
    if (!passed) return;
    b.dose = {};
    b.lot.reset();
  });
}

Fields fields_for(const Look& look, engine::EnteredLate& b) {
  Fields list = {colony_field(look, b.colony),
                 day_field("Day", b.on, [&b](engine::Date d) { b.on = d; }), time_field(b.minute),
                 passed_field(b)};
  if (!b.passed) {
    list.push_back(mass_field(look, "Dose", b.dose, kMostDose));
    list.push_back(boxes_field(b.brood_boxes));
    list.push_back(supers_field(b.supers_on));
    add_late_course(look, b, list);
  }
  add_late_words(look, b, list);
  return list;
}

FormField optional_number(std::string name, std::optional<int>& n, const NumberAsk& ask) {
  return number_field(std::move(name), n ? std::to_string(*n) : std::string(), ask,
                      [&n](double v) { n = static_cast<int>(v); });
}

Fields fields_for(const Look& look, engine::CountTaken& b) {
  Fields list = {colony_field(look, b.colony),
                 day_field("Day", b.on, [&b](engine::Date d) { b.on = d; }),
                 enum_field("Method", b.method),
                 number_field("Mites", std::to_string(b.mites), {"Mites counted", "mites", 0, 5000},
                              [&b](double v) { b.mites = static_cast<int>(v); })};
  const bool board = b.method == engine::CountMethod::StickyBoard;
  if (board) list.push_back(optional_number("Hours", b.hours, {"Hours", "h", 1, 24 * 31}));
  if (!board) list.push_back(optional_number("Bees", b.bees, {"Bees", "bees", 1, 5000}));
  list.push_back(text_field("Note", b.note));
  return list;
}

Fields fields_for(const Look&, engine::BroodNoted& b) {
  return {day_field("Day", b.on, [&b](engine::Date d) { b.on = d; }), enum_field("What", b.what),
          text_field("Note", b.note)};
}

Fields fields_for(const Look& look, engine::OtherTreatmentGiven& b) {
  Fields list = {colony_field(look, b.colony)};
  for (FormField& f : treatment_fields(look, b)) list.push_back(std::move(f));
  return list;
}

Fields fields_for(const Look& look, engine::StockReceived& b) {
  return {mass_field(look, "Amount", b.amount, kMostStock),
          text_field("Product", b.product, "as on its label"),
          text_field("Lot code", b.code, "on the container"),
          day_field("Expiry", b.expiry, [&b](engine::Date d) { b.expiry = d; }),
          text_field("Registration", b.registration, "number on the label"),
          text_field("Bought from", b.supplier),
          said_field("Its address", b.supplier_address),
          text_field("Receipt", b.receipt, "its number"),
          day_field("Bought on", b.on, [&b](engine::Date d) { b.on = d; })};
}

Fields fields_for(const Look& look, engine::AcidDisposed& b) { return disposal_fields(look, b); }

}  // namespace

void add_late_course(const Look& look, engine::EnteredLate& b, std::vector<FormField>& list) {
  list.push_back(lot_field(look, b.lot));
  list.push_back(seconds_field("Dwell", b.dwell, "setting to lifting"));
  list.push_back(seconds_field("Closed", b.seal, "how long the entrance was closed"));
}

void add_late_words(const Look& look, engine::EnteredLate& b, std::vector<FormField>& list) {
  add_weather(look, b.weather, list);
  list.push_back(text_field("Reason", b.reason, "why the yard was treated"));
  list.push_back(text_field("Who", b.operator_name, "who treated"));
  list.push_back(text_field("Address", b.operator_address, "of who treated"));
  list.push_back(text_field("Note", b.note, "may stay empty"));
}

std::vector<FormField> disposal_fields(const Look& look, engine::AcidDisposed& b) {
  return {mass_field(look, "Amount", b.amount, kMostStock),
          day_field("Day", b.on, [&b](engine::Date d) { b.on = d; }), enum_field("Why", b.why),
          text_field("How and where", b.how, "as your law asks: never into drain, fire or field")};
}

std::vector<FormField> treatment_fields(const Look& look, engine::OtherTreatmentGiven& b) {
  Fields list = {
      enum_field("Method", b.method),
      text_field("Product", b.product, "as on its label"),
      text_field("Dose", b.dose, "for example 50 mL, 2 strips"),
      day_field(
          "Day", b.on, [&b](engine::Date d) { b.on = d; }, from_today(b.on, look.today())),
      number_field(
          "Withdrawal", fmt::format("{} days", b.withdrawal_days),
          {"Days until honey may be taken (label)", "days", 0, 365, 0, {{"0 days", 0}}},
          [&b](double v) { b.withdrawal_days = static_cast<int>(v); }, "the label says how long"),
      text_field("Registration", b.registration, "number on the label"),
      text_field("Lot", b.lot, "batch number on the container"),
      day_field("Lot expires", b.lot_expiry, [&b](engine::Date d) { b.lot_expiry = d; }),
      optional_number("Days in the hive", b.days_given, {"Days it stayed in", "days", 1, 365}),
      time_field(b.minute),
      said_field("Reason", b.reason, "why it was treated"),
      said_field("Bought from", b.supplier),
      said_field("Its address", b.supplier_address),
      said_field("Receipt", b.receipt, "its number"),
      options_field(
          "Honey supers", {"not noted", "none on", "on"}, b.supers_on ? (*b.supers_on ? 2 : 1) : 0,
          [&b](std::size_t i) { b.supers_on = i == 0 ? std::nullopt : std::optional(i == 2); }),
      said_field("Who", b.operator_name, "empty: as in Setup"),
      said_field("Address", b.operator_address, "empty: as in Setup")};
  add_weather(look, b.weather, list);
  list.push_back(text_field("Note", b.note));
  return list;
}

std::vector<FormField> fields_of(const Look& look, engine::ReplacementBody& body) {
  return std::visit([&](auto& b) { return fields_for(look, b); }, body);
}

}  // namespace ui
