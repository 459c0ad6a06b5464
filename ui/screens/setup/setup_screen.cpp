// Setup: units, theme, who treats, which label, about this tablet.
#include "ui/screens/setup/setup_screen.h"

#include <array>
#include <optional>
#include <string>
#include <utility>

#include "ui/screens/base/layout.h"
#include "ui/screens/setup/setup_backups.h"
#include "ui/screens/setup/setup_label.h"
#include "ui/screens/setup/setup_numbers.h"
#include "ui/screens/setup/setup_own.h"
#include "ui/screens/walk/panels/first_aid.h"

namespace ui {

namespace {

using engine::SetupChanged;
constexpr int kWho = 1;  // the field of the first line of who treats

std::optional<int> pick(Touch& t, Rect& room, std::string_view title,
                        std::span<const std::string> options, int chosen) {
  text(t, cut_top(room, line_height(t, Size::Body), t.mm(1)), title, {.quiet = true});
  return choice(t, cut_top(room, choice_height(t, options, room.w), t.mm(2.5F)), options, chosen);
}

Ask units_section(Touch& t, Rect room, const Look& look) {
  const engine::Setup& s = look.farm.setup;
  SetupChanged e;
  const std::string degrees[] = {"Celsius", "Fahrenheit"};
  const std::string masses[] = {"Grams", "Ounces"};
  const std::string themes[] = {"Sun (dark on light)", "Dusk (light on dark)",
                                "Night (red on black)", "By the sun"};
  const auto temperature =
      pick(t, room, "Temperature", degrees, static_cast<int>(s.temperature_unit));
  const auto mass = pick(t, room, "Mass of acid", masses, static_cast<int>(s.mass_unit));
  const std::string speech[] = {"Speech on", "Speech off"};
  const int silent = s.spoken.value_or(true) ? 0 : 1;
  const auto theme = pick(t, room, "Screen", themes, static_cast<int>(s.theme));
  const auto spoken = pick(t, room, "In a walk", speech, silent);
  if (temperature && *temperature != static_cast<int>(s.temperature_unit))
    e.temperature_unit = static_cast<engine::TemperatureUnit>(*temperature);
  else if (mass && *mass != static_cast<int>(s.mass_unit))
    e.mass_unit = static_cast<engine::MassUnit>(*mass);
  else if (theme && *theme != static_cast<int>(s.theme))
    e.theme = static_cast<engine::Theme>(*theme);
  else if (spoken && *spoken != silent)
    e.spoken = *spoken == 0;
  else
    return {};
  return engine::Body{e};
}

struct WhoLine {
  const char *name, *typed, *hint;
  std::string engine::Setup::*now;
  std::optional<std::string> SetupChanged::*then;
};
constexpr std::array<WhoLine, 3> kWhoLines{{
    {"Name", "Name of who treats", "who treats; stands in the register",
     &engine::Setup::operator_name, &SetupChanged::operator_name},
    {"Address", "Address", "stands in the register", &engine::Setup::operator_address,
     &SetupChanged::operator_address},
    {"Emergency number", "Emergency number",
     "stands on the page of first aid; empty: the usual one", &engine::Setup::emergency_number,
     &SetupChanged::emergency_number},
}};

void operator_section(Touch& t, const Rect& room, const Look& look, SetupView& v) {
  const engine::Setup& s = look.farm.setup;
  const auto row_at = [&](std::size_t i) {
    return field(kWhoLines[i].name, s.*kWhoLines[i].now, kWhoLines[i].hint);
  };
  if (const auto tapped = list_rows(t, room, v.page, kWhoLines.size(), row_at))
    start_words(v.typing, kWho + static_cast<int>(*tapped), s.*kWhoLines[*tapped].now);
}

bool is_who(int field) {
  return field >= kWho && field < kWho + static_cast<int>(kWhoLines.size());
}

Ask operator_typed(Touch& t, SetupView& v) {
  const WhoLine& line = kWhoLines.at(static_cast<std::size_t>(v.typing.field - kWho));
  std::string words;
  if (!typed_words(t, v.typing, {line.typed, 80, true}, words)) return {};
  SetupChanged e;
  e.*line.then = words;
  return engine::Body{e};
}

void about_section(Touch& t, Rect room, const Look& look, SetupView& v) {
  const auto foot = columns(cut_bottom(room, t.mm(17), t.gap()), 2, t.gap());
  if (button(t, foot[0], "Backups", {.second = look.mendable ? "the store is locked" : ""}))
    v.backups = true;
  if (button(t, foot[1], "First aid", {.mark = Mark::Warning})) v.first_aid = true;
  const std::string lines[] = {
      std::string("Duskwalk ") + DUSKWALK_VERSION,
      "This tablet: " + engine::short_device(look.device),
      "Entries: " + std::to_string(look.farm.log.size()),
      "Store: " + look.store_path,
      "Logs written on this tablet: " + (look.log_folder.empty() ? "-" : look.log_folder),
      "Oxalic acid vapor harms eyes, skin and lungs. Wear the respirator your label asks for, eye "
      "protection and gloves; keep rinse water and fire water at hand; nobody downwind.",
      "The label in your hand, local law and licensed practice decide; this program does not."};
  paragraphs(t, room, v.page, lines);
}

Ask section_of(Touch& t, const Rect& room, const Look& look, SetupView& v) {
  switch (v.section) {
    case SetupSection::Units:
      return units_section(t, room, look);
    case SetupSection::Operator:
      operator_section(t, room, look, v);
      return {};
    case SetupSection::Label:
      return label_section(t, room, look, v);
    case SetupSection::Numbers:
      return numbers_section(t, room, look, v);
    case SetupSection::Own:
      own_section(t, room, look, v);
      return {};
    case SetupSection::About:
      about_section(t, room, look, v);
      return {};
  }
  return {};
}

}  // namespace

Ask setup_screen(Touch& t, const Rect& whole, const Look& look, SetupView& v) {
  Rect room = whole;
  if (v.first_aid) {
    if (first_aid(t, room, look)) v.first_aid = false;
    return {};
  }
  if (is_who(v.typing.field)) return operator_typed(t, v);
  if (typing_numbers(t, look, v)) return {};
  bool covered = false;
  Ask typed = typing_own(t, look, v, covered);
  if (covered) return typed;
  if (v.home) return home_page(t, room, look, v);
  if (v.refused && !look.refused_files.empty()) {
    refused_page(t, room, look, v);
    return {};
  }
  if (v.copy) return backup_page(t, room, look, v);
  if (v.backups) return backups_page(t, room, look, v);
  for (const LabelSeen& label : look.labels)
    if (v.label == label.id) return label_page(t, room, look, v, label);
  const auto& rules = look.farm.setup.rules;
  head(t, room, "Setup", rules ? "label: " + rules->product : "no label chosen yet");
  const std::string names[] = {"Units",         "Who treats",  "Label",
                               "Label numbers", "Own numbers", "About"};
  int section = static_cast<int>(v.section);
  sections(t, room, names, section, v.page);
  const SetupSection before = v.section;
  v.section = static_cast<SetupSection>(section);
  if (v.section != before) v.rules.reset();
  return section_of(t, room, look, v);
}

}  // namespace ui
