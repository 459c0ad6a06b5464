#include "engine/kit/packing_list.h"

#include <algorithm>
#include <cmath>

#include "engine/kit/packing_words.h"
#include "engine/kit/upkeep.h"
#include "engine/learn/dwell.h"

namespace engine {
namespace {

PackAcid acid_for(const Farm& farm, const PackAsk& ask) {
  PackAcid acid;
  Mass largest;
  for (const ToTreat& c : ask.colonies) {
    const Mass loaded = dose_loaded(ask.rules, c.dose);
    acid.doses = acid.doses + loaded;
    largest = std::max(largest, loaded);
  }
  const Mass tenth{std::llround(static_cast<double>(acid.doses.mg) * (kSpareAcid - 1))};
  acid.needed = acid.doses + std::max(tenth, largest);
  for (const Lot* lot : lots_to_use(farm, ask.on)) {
    const Mass rest = acid.needed - std::min(acid.needed, acid.there);
    if (rest.mg > 0) acid.lots.push_back({lot->id, std::min(rest, lot->left()), lot->left()});
    acid.there = acid.there + lot->left();
  }
  return acid;
}

// All heating of the evening, and the most that one setting takes.
struct Heating {
  double sum = 0, each = 0;
};
Heating heating_of(const PackAsk& ask) {
  Heating h;
  for (const ToTreat& c : ask.colonies) {
    const double one = heating_for(dose_loaded(ask.rules, c.dose));
    h.sum += one;
    h.each = std::max(h.each, one);
  }
  return h;
}

// The one that fails is the one that would have gone furthest.
bool last_without_best(const BatteryModel& model, std::vector<KitId> batteries, const Heating& h) {
  if (batteries.size() < 2) return false;
  std::vector<double> far;
  for (const KitId b : batteries) far.push_back(lasts(model, b, h.each * 10));
  const auto best = std::max_element(far.begin(), far.end()) - far.begin();
  batteries.erase(batteries.begin() + best);
  return last_together(model, batteries, h.sum, h.each) >= kCertain;
}

PackBatteries batteries_for(const Farm& farm, const BatteryModel& model, const PackAsk& ask) {
  PackBatteries out{.learned_from = model.charges};
  const Heating h = heating_of(ask);
  std::vector<KitId> good;
  for (const KitItem* b : kit_of(farm, KitSort::Battery)) {
    if (b->needs_charge) {
      out.to_charge.push_back(b->id);
      continue;
    }
    ++(b->vaporized_since_charge.mg > 0 ? out.begun : out.full);
    good.push_back(b->id);
  }
  out.full_needed = charges_for(model, h.sum, h.each);
  out.lasts = good.empty() ? 0 : last_together(model, good, h.sum, h.each);
  out.spare = out.enough() && last_without_best(model, good, h);
  return out;
}

void add_vaporizers(const Farm& farm, const PackAsk& ask, PackList& list) {
  const auto all = kit_of(farm, KitSort::Vaporizer);
  const int colonies = static_cast<int>(ask.colonies.size());
  // Shared alike; with one vaporizer it sets all of them.
  const int each = all.empty() ? 0 : (colonies - 1) / static_cast<int>(all.size()) + 1;
  for (const KitItem* v : all) {
    list.vaporizers.push_back(v->id);
    if (v->settings_since_clean + each > settings_between_cleanings(farm.setup))
      list.to_clean.push_back(v->id);
  }
}

void add_cloths(const Farm& farm, PackList& list) {
  for (const KitItem* c : kit_of(farm, KitSort::Cloth)) {
    ++list.cloths;
    if (farm.cloths_left.count(c->id) > 0) ++list.cloths_left_on;
  }
}

void add_respirators(const Farm& farm, PackList& list) {
  for (const KitItem* r : kit_of(farm, KitSort::Respirator))
    list.respirators.push_back(
        {r->id, r->cartridge, cartridge_worn(farm, *r), cartridge_left(farm, *r)});
}

}  // namespace

std::vector<ToTreat> to_treat(const Farm& farm, const std::vector<const Colony*>& colonies,
                              const LabelRules& rules) {
  std::vector<ToTreat> list;
  for (const Colony* c : colonies) list.push_back({c->id, prompted_dose(farm, rules, c->id)});
  return list;
}

PackList pack_for(const Farm& farm, const BatteryModel& model, const PackAsk& ask) {
  PackList list{.colonies = static_cast<int>(ask.colonies.size())};
  list.cloth_saves = ask.cloth_saves;
  list.acid = acid_for(farm, ask);
  list.batteries = batteries_for(farm, model, ask);
  add_vaporizers(farm, ask, list);
  add_cloths(farm, list);
  add_respirators(farm, list);
  list.missing = missing_words(farm, list);
  list.headline = headline_words(farm, list);
  return list;
}

}  // namespace engine
