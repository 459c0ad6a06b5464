#include "ui/screens/words/kit_words.h"

#include <fmt/format.h>

#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr int kDaysBeforeExpiry = 30;  // own choice, early enough to order

}  // namespace

std::vector<std::string> kit_asks(const Look& look) {
  std::vector<std::string> out;
  for (const engine::KitItem* v : engine::kit_of(look.farm, engine::KitSort::Vaporizer)) {
    if (!engine::cleaning_due(look.farm.setup, *v)) continue;
    out.push_back(fmt::format("{}: clean it, {} settings since the last time", v->name,
                              v->settings_since_clean));
  }
  for (const auto& [id, lot] : look.farm.lots) {
    if (lot.left().mg <= 0 || !lot.expiry) continue;
    const int left = days_from(look.today(), *lot.expiry);
    if (left > kDaysBeforeExpiry) continue;
    out.push_back(fmt::format("{} lot {}: {} {}", lot.product, lot.code,
                              left < 0 ? "expired" : "expires",
                              from_today(*lot.expiry, look.today())));
  }
  return out;
}

}  // namespace ui
