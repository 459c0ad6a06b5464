#include "ui/screens/kit/kit_rows.h"

#include <fmt/format.h>

#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

using engine::KitSort;

void set_state(Row& row, const char* tag, Mark mark, Surface surface) {
  row.tag = tag;
  row.mark = mark;
  row.tag_surface = surface;
}

void vaporizer(const Look& look, const engine::KitItem& v, Row& row) {
  row.second = fmt::format("{} of about {} settings since cleaning", v.settings_since_clean,
                           engine::settings_between_cleanings(look.farm.setup));
  if (engine::cleaning_due(look.farm.setup, v)) {
    set_state(row, "CLEAN IT", Mark::Warning, Surface::Warning);
  } else if (!v.battery) {
    set_state(row, "NO BATTERY", Mark::Open, Surface::Panel);
  } else {
    set_state(row, "READY", Mark::Check, Surface::Good);
  }
}

void battery(const Look& look, const engine::KitItem& b, Row& row) {
  row.second = fmt::format("{} vaporized since charged", show(look, b.vaporized_since_charge));
  for (const engine::KitItem* v : engine::kit_of(look.farm, KitSort::Vaporizer))
    if (v->battery == b.id) row.second += ", in " + engine::kit_called(look.farm, v->id);
  if (b.needs_charge) {
    set_state(row, "CHARGE IT", Mark::Warning, Surface::Warning);
  } else if (b.vaporized_since_charge.mg > 0) {
    set_state(row, "IN USE", Mark::Dot, Surface::Panel);
  } else {
    set_state(row, "CHARGED", Mark::Check, Surface::Good);
  }
}

void respirator(const Look& look, const engine::KitItem& r, Row& row) {
  row.second = r.cartridge.empty() ? std::string("no cartridge noted") : r.cartridge;
  row.tag = "WORN " + hours_minutes(engine::cartridge_worn(look.farm, r));
  row.mark = Mark::Clock;
}

}  // namespace

std::string item_name(const Look& look, engine::KitId item) {
  std::string name = engine::kit_called(look.farm, item);
  if (!name.empty() && name[0] >= 'a' && name[0] <= 'z')
    name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

Row kit_row(const Look& look, const engine::KitItem& item) {
  Row row{.title = item_name(look, item.id), .id = engine::text(item.id)};
  switch (item.sort) {
    case KitSort::Vaporizer:
      vaporizer(look, item, row);
      break;
    case KitSort::Battery:
      battery(look, item, row);
      break;
    case KitSort::Respirator:
      respirator(look, item, row);
      break;
    case KitSort::Cloth:
      break;
  }
  return row;
}

Row lot_row(const Look& look, const engine::Lot& lot) {
  Row row{.title = fmt::format("{}, lot {}", lot.product, lot.code.empty() ? "?" : lot.code),
          .id = engine::text(lot.id)};
  row.second = lot.expiry ? "expires " + day_words(*lot.expiry) : std::string("no expiry noted");
  const bool expired = lot.expiry && *lot.expiry < look.today();
  if (lot.left().mg <= 0) {
    set_state(row, "USED UP", Mark::Cross, Surface::Muted);
  } else if (expired) {
    set_state(row, "EXPIRED", Mark::Warning, Surface::Warning);
  } else {
    row.tag = show(look, lot.left()) + " LEFT";
    row.mark = Mark::Check;
    row.tag_surface = Surface::Good;
  }
  return row;
}

}  // namespace ui
