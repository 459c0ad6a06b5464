// What to take along this evening, or for a walk in one yard, beside what the kit has.
#include "ui/screens/kit/kit_packing.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/guide/foresee.h"
#include "engine/rounds/due.h"
#include "engine/trip/walk_length.h"
#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pack_tiles.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

using engine::PackList;

std::string names_of(const Look& look, const std::vector<engine::TripYard>& yards) {
  std::string names;
  for (const engine::TripYard& y : yards)
    names += (names.empty() ? "" : ", ") + look.farm.yards.at(y.yard).name;
  return names;
}

std::string for_what(const Look& look, const KitView& v, const Tonight& tonight) {
  if (v.yard) return look.farm.yards.at(*v.yard).name + ".";
  if (tonight.due.empty()) return "Nothing is due tonight.";
  const auto yards = yards_of(tonight);
  if (yards.empty()) return "No yard that is due fits into the evening.";
  return "Tonight: " + names_of(look, yards) + ".";
}

// Of all these visits together; none: the planner has nothing to plan there.
std::optional<engine::Seconds> one_more_cloth(const Look& look,
                                              const std::vector<engine::TripYard>& visits) {
  std::optional<engine::Seconds> sum;
  for (const engine::TripYard& v : visits)
    if (const auto c = engine::case_of_visit(look.farm, v, learned(look).dwell, look.now))
      sum = sum.value_or(engine::Seconds{}) + engine::one_more_cloth(*c);
  return sum;
}

std::optional<engine::Seconds> cloth_saving(const Look& look, KitView& v,
                                            const std::vector<engine::TripYard>& visits) {
  const bool kept =
      v.saving && v.saving->entries == look.farm.log.size() && v.saving->visits == visits;
  if (!kept) v.saving = {look.farm.log.size(), visits, one_more_cloth(look, visits)};
  return v.saving->saves;
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
  return pack_line("Acid, some to spare", rest, acid.short_by().mg == 0);
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

// For what, whether all of it is there, and each thing as a picture with its number.
void draw_pictures(Touch& t, Rect room, const Look& look, const std::string& title,
                   const PackList& list) {
  say(t, cut_top(room, high(t, Role::Title), t.mm(1)), shortened(t, title, room.w, Role::Title),
      Role::Title);
  const float tall = text_height(t, list.headline, room.w, size_of(Role::Body)) + 2;
  say(t, cut_top(room, tall, t.mm(2)), list.headline, Role::Body);
  draw_pack_tiles(t, room, all_pack_tiles(look, list), 2);
}

}  // namespace

void pack_yard_page(Touch& t, Rect room, const Look& look, KitView& v) {
  bool back = false;
  head(t, room, "Pack for one yard", "all of its colonies", &back);
  if (back) v.page_of = KitPage::None;
  std::vector<Row> rows;
  const auto yards = engine::yards(look.farm);
  for (const engine::Yard* y : yards) {
    const auto colonies = engine::colonies_to_treat(look.farm, y->id);
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

Ask pack_section(Touch& t, Rect room, const Look& look, KitView& v) {
  if (!look.farm.setup.rules) {
    if (empty_page(t, room, Icon::Register, "Your label decides the dose: choose it first.",
                   "Choose your label"))
      return ToLabels{};
    return {};
  }
  if (v.yard && look.farm.yards.count(*v.yard) == 0) v.yard.reset();
  const Tonight& tonight = look.answers.season.tonight(look);
  PackList list =
      *look.answers.season.pack(look, v.yard ? engine::colonies_to_treat(look.farm, *v.yard)
                                             : evening_colonies(look, tonight));
  list.cloth_saves =
      cloth_saving(look, v, v.yard ? std::vector<engine::TripYard>{{*v.yard}} : yards_of(tonight));
  const auto cells = columns(cut_bottom(room, t.mm(17), t.gap()), 3, t.gap());
  const std::string title = for_what(look, v, tonight);
  if (list.colonies == 0) {
    nothing_here(t, room, title);
  } else if (v.pack_told) {
    std::vector<std::string> lines = {title + " " + list.headline};
    const std::vector<std::string> rest = pack_lines(look, list);
    lines.insert(lines.end(), rest.begin(), rest.end());
    paragraphs(t, room, v.page, lines);
  } else {
    draw_pictures(t, room, look, title, list);
  }
  if (button(t, cells[0], "One yard")) v.page_of = KitPage::PackYard, v.page = 0;
  if (button(t, cells[1], "Tonight", {.enabled = v.yard.has_value()})) v.yard.reset(), v.page = 0;
  const ButtonLook words{.enabled = list.colonies > 0};
  if (button(t, cells[2], v.pack_told ? "Pictures" : "Details", words))
    v.pack_told = !v.pack_told, v.page = 0;
  return {};
}

}  // namespace ui
