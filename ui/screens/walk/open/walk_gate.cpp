// The gate before the first vapor of a walk: each protection is confirmed on its own, by hand.
//
// Which cartridge is needed is the label's word. Where the label says nothing the page shows both
// sides: NIOSH treats airborne oxalic acid as a particulate (Pocket Guide 0474), safety sheets of
// the trade ask for acid gas cartridges; a combined acid gas and P100 cartridge covers both.
#include "ui/screens/walk/open/walk_gate.h"

#include "engine/kit/upkeep.h"
#include "engine/language/tr.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

using engine::tr;
using engine::translated;

using engine::Protection;

namespace {

std::string cartridge_words(const Look& look, const engine::Walk& walk) {
  std::string words = tr("label: {}", walk.rules.cartridge);
  if (walk.rules.cartridge.empty())
    words = tr("cartridge as the label says; acid gas + P100 if not");
  if (!walk.respirator) return words;
  const engine::KitItem& item = look.farm.kit.at(*walk.respirator);
  if (item.cartridge.empty()) return words + tr("; check the one in it");
  const std::chrono::duration<double, std::ratio<3600>> worn =
      engine::cartridge_worn(look.farm, item);
  return words + tr("; in it: {}, worn {:.1f} h", item.cartridge, worn.count());
}

std::string downwind_words(const engine::Walk& walk) {
  const auto& from = walk.conditions.wind_from_deg;
  if (!from) return tr("people and animals; stand upwind of the hive");
  return tr("wind comes from {}: keep people off {}; stand upwind",
            translated(engine::compass(*from)), translated(engine::compass(*from + 180)));
}

}  // namespace

std::vector<ProtectionItem> protection_items(const Look& look, const engine::Walk& walk) {
  return {
      {Protection::Respirator, tr("Respirator on"), cartridge_words(look, walk)},
      {Protection::EyeProtection, tr("Eye protection on"), tr("tight goggles or a full face mask")},
      {Protection::Gloves, tr("Gloves on"), tr("acid-proof, sleeves closed over them")},
      {Protection::RinseWater, tr("Rinse water here"), tr("enough to rinse eyes and skin")},
      {Protection::NobodyDownwind, tr("Nobody downwind"), downwind_words(walk)}};
}

Ask walk_gate(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Before the first vapor: check each one"));
  const DialogButton buttons[] = {{tr("Undo last")}, {tr("Pause")}, {tr("Cautions")}};
  const auto counted = walk_footer(t, page.footer, view, buttons);
  if (counted == 0) view.under_way.panel = WalkPanel::StrikeLast;
  if (counted == 1) view.under_way.panel = WalkPanel::Close;
  if (counted == 2) view.under_way.panel = WalkPanel::Cautions;
  const std::string caution =
      tr("Hot acid vapor burns lungs, eyes and skin. The tip is about 230 °C hot: off cloth, dry "
         "grass, "
         "polystyrene and battery terminals; wet the cloth. Respirator on until the LAST cloth is "
         "off. "
         "The label and local rules decide.");
  notice(t, page.room, caution, Mark::Warning, Surface::Warning);
  const std::vector<ProtectionItem> list = protection_items(look, walk);
  page.room.y += t.mm(1);
  page.room.h -= t.mm(1);
  const std::size_t cols = t.portrait() ? 1 : 2;
  const std::vector<Rect> cells = grid(page.room, cols, (list.size() + cols - 1) / cols, t.gap());
  Ask asked;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const bool confirmed = walk.confirmed.count(list[i].item) != 0;
    if (check_row(t, cells[i], list[i].label, confirmed, list[i].second, !confirmed))
      asked = engine::Body{engine::ProtectionConfirmed{walk.id, list[i].item}};
  }
  return asked;
}

}  // namespace ui
