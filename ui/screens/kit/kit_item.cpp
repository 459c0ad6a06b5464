#include "ui/screens/kit/kit_item.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/kit/kit_rows.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

using engine::KitSort;
constexpr int kRename = 1, kCartridge = 2;

// What most colonies get: the middle of all doses that will be prompted; none without a label.
std::optional<engine::Mass> usual_dose(const Look& look) {
  if (!look.farm.setup.rules) return std::nullopt;
  std::vector<engine::Mass> doses;
  for (const auto& [id, c] : look.farm.colonies)
    if (!c.lost) doses.push_back(engine::prompted_dose(*look.farm.setup.rules, c.brood_boxes));
  if (doses.empty()) return engine::prompted_dose(*look.farm.setup.rules, 1);
  std::sort(doses.begin(), doses.end());
  return doses[doses.size() / 2];
}

void add_learned_dwell(const Look& look, const engine::KitItem& vaporizer,
                       std::vector<std::string>& lines) {
  const auto dose = usual_dose(look);
  if (!dose) return;
  engine::Walk walk;  // as it would be opened now, in air of which nothing was noted
  walk.rules = *look.farm.setup.rules;
  const auto f = engine::forecast_dwell(learned(look).dwell, walk, *dose, vaporizer.id);
  lines.push_back(fmt::format("Dwell at {}: {} (model, {})", show(look, *dose), engine::words(f),
                              engine::learned_from(f)));
}

void add_learned_charge(const Look& look, const engine::KitItem& battery,
                        std::vector<std::string>& lines) {
  const auto dose = usual_dose(look);
  if (!dose) return;
  const engine::Mass loaded = engine::dose_loaded(*look.farm.setup.rules, *dose);
  const auto& charge = look.answers.charge_of(look.farm, battery.id, loaded);
  lines.push_back(fmt::format("At {} a colony: {} (model)", show(look, *dose),
                              engine::words(charge, look.farm.setup.mass_unit)));
}

std::vector<std::string> facts_of(const Look& look, const engine::KitItem& item) {
  const Row row = kit_row(look, item);
  std::vector<std::string> lines;
  if (!row.second.empty()) lines.push_back(row.second);
  if (!row.tag.empty()) lines.push_back("State: " + row.tag);
  if (item.sort == KitSort::Vaporizer) {
    lines.push_back(item.battery ? "Battery in it: " + engine::kit_called(look.farm, *item.battery)
                                 : "No battery in it");
    add_learned_dwell(look, item, lines);
    lines.push_back(
        "Cleaning after about 50 settings is common practice; the maker's manual "
        "decides, and Setup holds your number. Hot parts: let it cool first.");
  }
  if (item.sort == KitSort::Battery) add_learned_charge(look, item, lines);
  if (item.sort == KitSort::Respirator) {
    if (item.cartridge_since)
      lines.push_back("Changed on " + day_words(engine::local_date(*item.cartridge_since)));
    if (const auto left = engine::cartridge_left(look.farm, item))
      lines.push_back(hours_minutes(*left) + " left of the hours in Setup");
    lines.push_back("The label and the maker say which cartridge and for how long.");
  }
  return lines;
}

const char* own_act(KitSort sort) {
  if (sort == KitSort::Vaporizer) return "Cleaned";
  if (sort == KitSort::Battery) return "Charged";
  return "Cartridge changed";
}

Ask own_act_done(KitView& v, const engine::KitItem& item) {
  if (item.sort == KitSort::Vaporizer) return engine::Body{engine::VaporizerCleaned{item.id}};
  if (item.sort == KitSort::Battery) return engine::Body{engine::BatteryCharged{item.id}};
  start_words(v.typing, kCartridge, item.cartridge);
  return {};
}

// Whatever is typed over the page; `covered` is set while the letters are open.
Ask typing_over(Touch& t, KitView& v, const engine::KitItem& item, bool& covered) {
  std::string words;
  covered = true;
  if (v.typing.field == kRename) {
    if (!typed_words(t, v.typing, {"Name"}, words)) return {};
    engine::KitChanged e{item.id};
    e.name = words;
    return engine::Body{e};
  }
  if (v.typing.field == kCartridge) {
    if (!typed_words(t, v.typing, {"New cartridge, as printed on it", 60}, words)) return {};
    return engine::Body{engine::FilterChanged{item.id, words}};
  }
  covered = false;
  return {};
}

Ask change_battery(Touch& t, Rect room, const Look& look, KitView& v,
                   const engine::KitItem& vaporizer) {
  bool back = false;
  head(t, room, "Battery for " + engine::kit_called(look.farm, vaporizer.id),
       "the one that goes in", &back);
  if (back) v.page_of = KitPage::None;
  if (vaporizer.battery) {
    const std::string options[] = {"Old one is empty", "Old one is still good"};
    const Rect at = cut_top(room, choice_height(t, options, room.w), t.gap());
    if (const auto tapped = choice(t, at, options, v.was_empty ? 0 : 1)) v.was_empty = *tapped == 0;
  }
  std::vector<const engine::KitItem*> all = engine::kit_of(look.farm, KitSort::Battery);
  std::erase_if(all, [&](const auto* b) { return vaporizer.battery == b->id; });
  if (all.empty()) {
    nothing_here(t, room, "There is no other battery.\nAdd one under Batteries.");
    return {};
  }
  std::vector<Row> rows;
  for (const engine::KitItem* b : all) rows.push_back(kit_row(look, *b));
  const auto tapped = list_rows(t, room, v.stock_page, rows);
  if (!tapped) return {};
  v.page_of = KitPage::None;
  return engine::Body{
      engine::BatteryChanged{vaporizer.id, all[*tapped]->id, vaporizer.battery && v.was_empty}};
}

// The big one first: a vaporizer that was just cleaned still wants its battery.
std::vector<Act> acts_of(const engine::KitItem& item) {
  std::vector<Act> list;
  if (item.sort == KitSort::Vaporizer) {
    list.push_back({.label = "Change battery",
                    .second = item.battery ? "" : "none is in it",
                    .surface = Surface::Action,
                    .big = true});
    list.push_back({.label = own_act(item.sort)});
  } else if (item.sort != KitSort::Cloth) {
    list.push_back({.label = own_act(item.sort), .surface = Surface::Action, .big = true});
  }
  list.push_back({.label = "Rename"});
  list.push_back({.label = "Retire", .surface = Surface::Warning, .hold = true});
  return list;
}

Ask retire(KitView& v, const engine::KitItem& item) {
  v.item.reset();
  engine::KitChanged e{item.id};
  e.retired = true;
  return engine::Body{e};
}

}  // namespace

Ask kit_item_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::KitItem& item) {
  bool covered = false;
  Ask typed = typing_over(t, v, item, covered);
  if (covered) return typed;
  if (v.page_of == KitPage::ChangeBattery) return change_battery(t, room, look, v, item);
  bool back = false;
  head(t, room, item_name(look, item.id), "", &back);
  if (back) v.item.reset();
  const std::vector<Act> list = acts_of(item);
  const auto tapped = acts(t, room, list);
  room.h = std::min(room.h, t.mm(70));
  told(t, room, "", facts_of(look, item));
  if (!tapped) return {};
  const std::string& label = list[*tapped].label;
  if (label == "Retire") return retire(v, item);
  if (label == "Rename") start_words(v.typing, kRename, item.name);
  if (label == "Change battery") {
    v.page_of = KitPage::ChangeBattery;
    v.stock_page = 0;
    v.was_empty = false;
  }
  return label == own_act(item.sort) ? own_act_done(v, item) : Ask{};
}

}  // namespace ui
