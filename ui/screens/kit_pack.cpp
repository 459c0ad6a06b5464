// What to take along this evening, or for a walk in one yard, beside what the kit has.
#include <fmt/format.h>

#include <algorithm>

#include "engine/course/due.h"
#include "engine/register/lookup.h"
#include "ui/screens/kit_parts.h"

namespace ui {

namespace {

using engine::PackList;

bool has(const std::vector<engine::YardId>& list, engine::YardId yard) {
  return std::find(list.begin(), list.end(), yard) != list.end();
}

std::vector<engine::YardId> yards_with_round(const engine::Due& due) {
  std::vector<engine::YardId> list;
  for (const engine::DueRound& r : due.rounds)
    if (!has(list, r.yard)) list.push_back(r.yard);
  return list;
}

// All colonies of a yard with a due round; of the others those to come back to.
engine::PackAsk ask_tonight(const Look& look, const engine::Due& due) {
  const std::vector<engine::YardId> yards = yards_with_round(due);
  const engine::LabelRules& rules = *look.farm.setup.rules;
  engine::PackAsk ask{engine::to_treat(look.farm, yards, rules), rules, look.today(), {}};
  for (const engine::ComeBack& c : due.come_backs) {
    if (has(yards, c.yard)) continue;
    ask.colonies.push_back({c.colony, engine::prompted_dose(look.farm, rules, c.colony)});
  }
  return ask;
}

std::string for_what(const Look& look, const KitView& v, const engine::Due& due) {
  if (v.yard) return look.farm.yards.at(*v.yard).name + ".";
  std::vector<engine::YardId> yards = yards_with_round(due);
  for (const engine::ComeBack& c : due.come_backs)
    if (!has(yards, c.yard)) yards.push_back(c.yard);
  if (yards.empty()) return "Nothing is due tonight.";
  std::string names;
  for (const engine::YardId y : yards)
    names += (names.empty() ? "" : ", ") + look.farm.yards.at(y).name;
  return "Tonight: " + names + ".";
}

const KitView::Packed& packed(const Look& look, KitView& v) {
  const bool kept = v.packed && v.packed->entries == look.farm.log.size() &&
                    v.packed->on == look.today() && v.packed->yard == v.yard;
  if (kept) return *v.packed;
  const engine::Due due = engine::due_on(look.farm, look.today());
  engine::PackAsk ask = ask_tonight(look, due);
  if (v.yard) {
    const engine::YardId one[] = {*v.yard};
    ask.colonies = engine::to_treat(look.farm, one, ask.rules);
  }
  v.packed = {look.farm.log.size(), look.today(), v.yard, for_what(look, v, due),
              engine::pack_for(look.farm, learned(look).battery, ask)};
  return *v.packed;
}

// What is short says so first.
std::string pack_line(const char* what, const std::string& rest, bool enough) {
  return fmt::format("{}{}: {}", enough ? "" : "SHORT. ", what, rest);
}

std::string acid_line(const Look& look, const engine::PackAcid& acid) {
  std::string rest =
      fmt::format("needed {}, there {}", show(look, acid.needed), show(look, acid.there));
  for (const auto& lot : acid.lots)
    rest += fmt::format("; {} of {}", show(look, lot.take), engine::lot_called(look.farm, lot.lot));
  return pack_line("Acid, a tenth to spare", rest, acid.short_by().mg == 0);
}

std::string cloth_line(const PackList& list) {
  std::string rest = engine::counted(static_cast<std::size_t>(list.cloths), "cloth", "cloths");
  if (list.cloths_left_on > 0) rest += fmt::format(", {} left on a hive", list.cloths_left_on);
  if (const std::string more = engine::cloth_words(list); !more.empty()) rest += ". " + more;
  return pack_line("Cloths", rest, list.cloths > 0);
}

std::string vaporizer_line(const Look& look, const PackList& list) {
  if (list.vaporizers.empty()) return pack_line("Vaporizers", "none", false);
  std::string rest;
  for (const engine::KitId v : list.vaporizers)
    rest += (rest.empty() ? "" : ", ") + engine::kit_called(look.farm, v);
  for (const engine::KitId v : list.to_clean)
    rest += "; clean " + engine::kit_called(look.farm, v) + " first, cold";
  return pack_line("Vaporizers", rest, true);
}

std::string spare_line(const PackList& list) {
  return fmt::format("To spare: {}; {}.",
                     list.batteries.spare ? "a battery may fail" : "no battery, charge one more",
                     list.cloths > 1 ? "a cloth may be lost" : "no second cloth");
}

std::vector<std::string> pack_lines(const Look& look, const PackList& list) {
  std::vector<std::string> lines = {
      acid_line(look, list.acid),
      pack_line("Batteries", engine::battery_words(list.batteries), list.batteries.enough()),
      cloth_line(list), vaporizer_line(look, list), spare_line(list)};
  for (const auto& r : list.respirators)
    lines.push_back(pack_line("Respirator", engine::respirator_words(look.farm, r),
                              !r.left || r.left->count() > 0));
  if (list.respirators.empty()) lines.push_back(pack_line("Respirator", "none", false));
  const auto& always = engine::pack_always();
  lines.insert(lines.end(), always.begin(), always.end());
  return lines;
}

}  // namespace

void pack_yard_page(Touch& t, Rect room, const Look& look, KitView& v) {
  bool back = false;
  head(t, room, "Pack for one yard", "all of its colonies", &back);
  if (back) v.page_of = KitPage::None;
  std::vector<Row> rows;
  const auto yards = engine::yards(look.farm);
  for (const engine::Yard* y : yards) {
    const auto colonies = engine::colonies_of(look.farm, y->id);
    rows.push_back({.title = y->name,
                    .second = engine::counted(colonies.size(), "colony", "colonies"),
                    .id = engine::text(y->id)});
  }
  const auto tapped = list_rows(t, room, v.page, rows);
  if (!tapped) return;
  v.yard = yards[*tapped]->id;
  v.page_of = KitPage::None;
  v.page = 0;
}

void pack_section(Touch& t, Rect room, const Look& look, KitView& v) {
  if (!look.farm.setup.rules) {
    nothing_here(t, room, "Choose your label in Setup first: it decides the dose.");
    return;
  }
  if (v.yard && look.farm.yards.count(*v.yard) == 0) v.yard.reset();
  const KitView::Packed& now = packed(look, v);
  const PackList& list = now.list;
  const Rect foot = cut_bottom(room, t.mm(17), t.gap());
  const auto cells = columns(foot, 2, t.gap());
  std::vector<std::string> lines = {now.for_what};
  if (list.colonies > 0) {
    lines[0] += " " + list.headline;
    const std::vector<std::string> rest = pack_lines(look, list);
    lines.insert(lines.end(), rest.begin(), rest.end());
  }
  paragraphs(t, room, v.page, lines);
  if (button(t, cells[0], "One yard")) v.page_of = KitPage::PackYard, v.page = 0;
  if (button(t, cells[1], "Tonight", {.enabled = v.yard.has_value()})) v.yard.reset(), v.page = 0;
}

}  // namespace ui
