#include "ui/screens/setup/setup_numbers.h"

#include <fmt/format.h>

#include "ui/screens/base/layout.h"

namespace ui {

namespace {

using engine::LabelRules;
using engine::Mass;

enum Field {
  kPerBox = 10,
  kMostBox,
  kMostColony,
  kDwellGoal,
  kDwellLeast,
  kSealGoal,
  kSealLeast,
  kWithdrawal,
  kProduct,
  kRegistration,
  kCartridge,
  kSupers
};

std::string seconds(engine::Seconds s) {
  return s.count() < 120
             ? fmt::format("{} s", s.count())
             : engine::minutes_seconds(std::chrono::duration_cast<engine::Ms>(s)) + " min";
}

std::string mass(const Look& look, const LabelRules& r, const std::optional<Mass>& m) {
  return m ? engine::words(*m, r.basis, engine::units_of(look.farm.setup)) : "no limit entered";
}

struct Line {
  Field field;
  Row row;
};
std::vector<Line> lines_of(const Look& look, const LabelRules& r) {
  const char* practice = "common practice; the vaporizer's manual and label decide";
  return {{kPerBox, field("Dose for a brood box", mass(look, r, r.per_brood_box), "label")},
          {kMostBox, field("Most for a brood box", mass(look, r, r.most_per_brood_box), "label")},
          {kMostColony, field("Most for a colony", mass(look, r, r.most_per_colony), "label")},
          {kProduct, field("Product", r.product, "as on the label")},
          {kRegistration, field("Registration", r.registration, "number on the label")},
          {kSupers, field("Honey supers", engine::words(r.supers), "tap for the next")},
          {kWithdrawal, field("Withdrawal", fmt::format("{} days", r.withdrawal_days), "label")},
          {kCartridge, field("Cartridge", r.cartridge)},
          {kDwellGoal, field("Dwell, goal", seconds(r.dwell_goal), practice)},
          {kDwellLeast, field("Dwell, least", seconds(r.dwell_least), "shorter is called short")},
          {kSealGoal, field("Closed, goal", seconds(r.seal_goal), practice)},
          {kSealLeast, field("Closed, least", seconds(r.seal_least), "shorter is called short")}};
}

// "dwell_least: must be 0 to the dwell goal" in the words of this screen.
std::string said_plainly(std::string wrong) {
  const std::size_t colon = wrong.find(':');
  for (std::size_t i = 0; i < std::min(colon, wrong.size()); ++i)
    if (wrong[i] == '_') wrong[i] = ' ';
  return wrong;
}

NumberAsk ask_mass(const Look& look, const char* title) {
  return {title, mass_unit(look), 0.001, mass_shown(look, engine::kMostEntered), 3};
}

void type_mass(Touch& t, const Look& look, SetupView& v, LabelRules& r) {
  double value = 0;
  const int f = v.typing.field;
  const char* title = f == kPerBox    ? "Dose for each brood box"
                      : f == kMostBox ? "The label's most for each brood box"
                                      : "The label's most for a colony";
  NumberAsk ask = ask_mass(look, title);
  if (f != kPerBox) ask.high *= 9;  // what a label allows, not what is given
  if (f != kPerBox) ask.presets = {{"No limit", 0}};
  if (!typed_number(t, v.typing, ask, value)) return;
  const auto limit = value > 0 ? std::optional(mass_typed(look, value)) : std::nullopt;
  if (f == kPerBox) r.per_brood_box = mass_typed(look, value);
  if (f == kMostBox) r.most_per_brood_box = limit;
  if (f == kMostColony) r.most_per_colony = limit;
}

void type_seconds(Touch& t, SetupView& v, LabelRules& r) {
  double value = 0;
  const int f = v.typing.field;
  const bool dwell = f == kDwellGoal || f == kDwellLeast;
  const NumberAsk ask{dwell ? "Dwell: setting to recovered heat" : "Closed: time under the cloth",
                      "s", f == kDwellGoal || f == kSealGoal ? 1.0 : 0.0, 3600, 0};
  if (!typed_number(t, v.typing, ask, value)) return;
  const engine::Seconds s{static_cast<int>(value)};
  (f == kDwellGoal    ? r.dwell_goal
   : f == kDwellLeast ? r.dwell_least
   : f == kSealGoal   ? r.seal_goal
                      : r.seal_least) = s;
}

void type_days(Touch& t, SetupView& v, LabelRules& r) {
  double value = 0;
  const NumberAsk ask{"Days until honey may be taken", "days", 0, 365};
  if (typed_number(t, v.typing, ask, value)) r.withdrawal_days = static_cast<int>(value);
}

void type_words(Touch& t, SetupView& v, LabelRules& r) {
  if (v.typing.field == kProduct)
    typed_words(t, v.typing, {"Product, as on the label", 60}, r.product);
  else if (v.typing.field == kRegistration)
    typed_words(t, v.typing, {"Registration number", 40, true}, r.registration);
  else
    typed_words(t, v.typing, {"Cartridge the label asks for", 90, true}, r.cartridge);
}

void open_field(SetupView& v, Field f, LabelRules& r) {
  if (f == kSupers) {
    r.supers = static_cast<engine::Supers>((static_cast<int>(r.supers) + 1) % 3);
  } else if (f == kProduct || f == kRegistration || f == kCartridge) {
    const std::string& now = f == kProduct        ? r.product
                             : f == kRegistration ? r.registration
                                                  : r.cartridge;
    start_words(v.typing, f, now);
  } else {
    start_number(v.typing, f);
  }
}

}  // namespace

bool typing_numbers(Touch& t, const Look& look, SetupView& v) {
  const int f = v.typing.field;
  if (f < kPerBox || f > kCartridge || !v.rules) return false;
  if (f <= kMostColony)
    type_mass(t, look, v, *v.rules);
  else if (f <= kSealLeast)
    type_seconds(t, v, *v.rules);
  else if (f == kWithdrawal)
    type_days(t, v, *v.rules);
  else
    type_words(t, v, *v.rules);
  return true;
}

Ask numbers_section(Touch& t, Rect room, const Look& look, SetupView& v) {
  if (!look.farm.setup.rules) {
    nothing_here(t, room, "Choose a label first, under Label.");
    return {};
  }
  if (!v.rules) v.rules = look.farm.setup.rules;
  engine::SetupChanged e;
  e.rules = *v.rules;
  const bool changed = !(*v.rules == *look.farm.setup.rules);
  const std::string wrong = engine::what_is_wrong(*v.rules);
  const std::string second = !wrong.empty() ? said_plainly(wrong)
                             : changed      ? "check them against your label"
                                            : "nothing is changed";
  const Rect foot = cut_bottom(room, t.mm(20), t.gap());
  const ButtonLook save{changed && wrong.empty(), Surface::Action, Mark::None, second, {}, true};
  const bool tapped = button(t, foot, "Save numbers", save);
  const std::vector<Line> lines = lines_of(look, *v.rules);
  std::vector<Row> rows;
  for (const Line& line : lines) rows.push_back(line.row);
  if (const auto at = list_rows(t, room, v.page, rows)) open_field(v, lines[*at].field, *v.rules);
  if (!tapped) return {};
  v.rules.reset();
  return engine::Body{e};
}

}  // namespace ui
