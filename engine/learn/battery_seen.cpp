// The charges of each battery, as the log tells them.
#include <map>
#include <set>

#include "engine/learn/battery.h"
#include "engine/learn/dwell.h"
#include "engine/learn/recent.h"

namespace engine {
namespace {

class Charges {
 public:
  // `cut`: what was before is not known, and the first charge of each battery may have begun there.
  explicit Charges(bool cut) : cut_(cut) {}

  void use(KitId battery, double heating, double cold) {
    open_[battery].heating += heating;
    open_[battery].cold_heating += heating * cold;
  }

  void change(const BatteryChanged& e) {
    const auto old = in_.find(e.vaporizer);
    if (old != in_.end() && old->second != e.battery && e.was_empty) end(old->second, true);
    std::erase_if(in_, [&](const auto& pair) { return pair.second == e.battery; });
    in_[e.vaporizer] = e.battery;
  }

  void charge(KitId battery) { end(battery, false); }

  std::vector<ChargeSeen> all() && {
    for (const auto& [battery, sum] : open_)
      if (sum.heating > 0) seen_.push_back({battery, sum.heating, false, true, sum.cold()});
    return std::move(seen_);
  }

 private:
  void end(KitId battery, bool emptied) {
    Sum& sum = open_[battery];
    const bool known = !cut_ || !begun_.insert(battery).second;
    if (sum.heating > 0 && known)
      seen_.push_back({battery, sum.heating, emptied, false, sum.cold()});
    sum = {};
  }

  struct Sum {
    double heating = 0, cold_heating = 0;
    [[nodiscard]] double cold() const { return cold_heating / heating; }
  };

  bool cut_;
  std::set<KitId> begun_;  // batteries whose first end was seen
  std::map<KitId, Sum> open_;
  std::map<KitId, KitId> in_;  // by vaporizer
  std::vector<ChargeSeen> seen_;
};

}  // namespace

std::vector<ChargeSeen> charges_seen(const Farm& farm) {
  Charges charges(first_learned(farm) > 0);
  const auto take = [&](const Entry& entry) {
    const Body& body = entry.event.body;
    if (const auto set = holds<VaporizerSet>(farm, entry)) {
      if (!set->battery) return;
      const auto walk = farm.walks.find(set->walk);
      const bool known = walk != farm.walks.end();
      charges.use(*set->battery,
                  heating_for(known ? dose_loaded(walk->second.rules, set->dose) : set->dose),
                  known ? coldness(walk->second.conditions) : 0);
    } else if (!entry.counts()) {
      return;
    } else if (const auto* changed = std::get_if<BatteryChanged>(&body)) {
      charges.change(*changed);
    } else if (const auto* charged = std::get_if<BatteryCharged>(&body)) {
      charges.charge(charged->battery);
    }
  };
  farm.log.each<VaporizerSet, BatteryChanged, BatteryCharged>(take, first_learned(farm));
  return std::move(charges).all();
}

}  // namespace engine
