#include "ui/screens/kit_words.h"

#include <fmt/format.h>

#include "ui/screens/grammar.h"

namespace ui {

namespace {

constexpr int kDaysBeforeExpiry = 30;  // own choice, early enough to order

std::string short_of(const char* what, int need, int there) {
  return fmt::format("{}: {} needed, {} there", what, need, there);
}

}  // namespace

std::vector<std::string> lacking(const Look& look,
                                 const std::vector<const engine::Colony*>& colonies) {
  if (!look.farm.setup.rules) return {"No label is chosen in Setup: the dose is not known"};
  const engine::KitNeed n =
      engine::need_for(look.farm, colonies, *look.farm.setup.rules, look.today());
  std::vector<std::string> out;
  if (n.acid_on_hand < n.acid) {
    out.push_back(
        fmt::format("Acid: {} needed, {} there", show(look, n.acid), show(look, n.acid_on_hand)));
  }
  if (n.charged < 1) {
    out.push_back(short_of("Charged batteries", std::max(1, n.charges), n.charged));
  } else if (n.charge_left < n.acid) {
    out.push_back(fmt::format("Charge in the batteries: for {} needed, for about {} there",
                              show(look, n.acid), show(look, n.charge_left)));
  }
  if (n.vaporizers < 1) out.push_back(short_of("Vaporizers", 1, n.vaporizers));
  if (n.cloths < 1) out.push_back(short_of("Cloths", 1, n.cloths));
  if (n.respirators < 1) out.push_back(short_of("Respirators", 1, n.respirators));
  return out;
}

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
