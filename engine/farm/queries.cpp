#include "engine/farm/queries.h"

#include <algorithm>
#include <tuple>

#include "engine/farm/fold.h"

namespace engine {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Takes one run of digits off the front, without its leading zeros.
std::string_view digits_of(std::string_view& text) {
  std::size_t n = 0;
  while (n < text.size() && is_digit(text[n])) ++n;
  std::string_view run = text.substr(0, n);
  text.remove_prefix(n);
  while (run.size() > 1 && run.front() == '0') run.remove_prefix(1);
  return run;
}

}  // namespace

bool before_by_name(std::string_view a, std::string_view b) {
  while (!a.empty() && !b.empty()) {
    if (is_digit(a.front()) && is_digit(b.front())) {
      const std::string_view x = digits_of(a), y = digits_of(b);
      if (x.size() != y.size()) return x.size() < y.size();
      if (x != y) return x < y;
    } else {
      if (a.front() != b.front()) return a.front() < b.front();
      a.remove_prefix(1);
      b.remove_prefix(1);
    }
  }
  return a.size() < b.size();
}

std::vector<const Yard*> yards(const Farm& farm) {
  std::vector<const Yard*> list;
  for (const auto& [id, yard] : farm.yards)
    if (!yard.lost) list.push_back(&yard);
  std::stable_sort(list.begin(), list.end(),
                   [](const Yard* a, const Yard* b) { return before_by_name(a->name, b->name); });
  return list;
}

std::vector<const Colony*> colonies_of(const Farm& farm, YardId yard) {
  std::vector<const Colony*> list;
  for (const ColonyId id : farm.in_yard.of(yard))
    if (const Colony& colony = farm.colonies.at(id); !colony.lost) list.push_back(&colony);
  std::stable_sort(list.begin(), list.end(), [](const Colony* a, const Colony* b) {
    return std::tie(a->order, a->id) < std::tie(b->order, b->id);
  });
  return list;
}

bool is_dead_out(const Farm& farm, const Colony& colony) {
  if (colony.lost || !colony.last_walk) return false;
  const Stop* stop = find_stop(farm.walks.at(*colony.last_walk), colony.id);
  return stop != nullptr && stop->phase == Phase::PassedOver && stop->passed == PassReason::DeadOut;
}

std::vector<const Colony*> colonies_to_treat(const Farm& farm, YardId yard) {
  std::vector<const Colony*> list = colonies_of(farm, yard);
  std::erase_if(list, [&](const Colony* c) { return is_dead_out(farm, *c); });
  return list;
}

std::vector<const KitItem*> kit_of(const Farm& farm, KitSort sort) {
  std::vector<const KitItem*> list;
  for (const auto& [id, item] : farm.kit)
    if (item.sort == sort && !item.retired) list.push_back(&item);
  std::stable_sort(list.begin(), list.end(), [](const KitItem* a, const KitItem* b) {
    return before_by_name(a->name, b->name);
  });
  return list;
}

const Yard* find_yard(const Farm& farm, std::string_view name) {
  for (const auto& [id, yard] : farm.yards)
    if (yard.name == name) return &yard;
  return nullptr;
}

const Walk* walk_under_way(const Farm& farm, DeviceId device) {
  const auto at = farm.walk_under_way.find(device);
  return at == farm.walk_under_way.end() ? nullptr : &farm.walks.at(at->second);
}

std::string_view colony_name(const Farm& farm, ColonyId colony) {
  const auto at = farm.colonies.find(colony);
  return at == farm.colonies.end() ? std::string_view{"?"} : std::string_view{at->second.name};
}

Mass prompted_dose(const Farm& farm, const LabelRules& rules, ColonyId colony) {
  const auto at = farm.colonies.find(colony);
  return prompted_dose(rules, at == farm.colonies.end() ? 1 : at->second.brood_boxes);
}

std::vector<const Walk*> walks_of(const Farm& farm, YardId yard) {
  std::vector<const Walk*> list;
  for (const Walks::Opened& o : farm.walks.of_yard(yard)) list.push_back(&farm.walks.at(o.walk));
  return list;
}

EntryHandle find_entry(const Farm& farm, EntryRef ref) {
  const auto at = farm.log.find(ref);
  return at ? farm.log[*at] : nullptr;
}

std::optional<VaporGiven> vapor_given_on(const Farm& farm, ColonyId colony, Date day) {
  const auto at = farm.colonies.find(colony);
  if (at == farm.colonies.end() || !at->second.vapor || at->second.vapor->on != day)
    return std::nullopt;
  return at->second.vapor;
}

std::vector<ComeBack> come_back_list(const Farm& farm) {
  std::vector<ComeBack> list;
  for (const Yard* yard : yards(farm)) {
    for (const Colony* colony : colonies_of(farm, yard->id)) {
      if (!colony->last_walk || is_dead_out(farm, *colony)) continue;
      const Walk& walk = farm.walks.at(*colony->last_walk);
      const Stop* stop = find_stop(walk, colony->id);
      auto reasons = stop ? reasons_to_come_back(walk, *stop) : std::vector<ComeBackReason>{};
      if (!reasons.empty()) list.push_back({colony->id, yard->id, walk.id, std::move(reasons)});
    }
  }
  return list;
}

EntryHandle last_entry(const Farm& farm, DeviceId device) {
  for (std::size_t i = farm.log.size(); i-- > 0;) {
    if (facts_of_kind(farm.log.kind_at(i)).is_strike()) continue;
    EntryHandle e = farm.log[i];
    if (e->event.ref.device == device && e->counts()) return e;
  }
  return nullptr;
}

std::optional<Temperature> air_expected(const Farm& farm, Date on, HomePart part) {
  const auto at = farm.air_expected.find({on, part});
  return at == farm.air_expected.end() ? std::nullopt : std::optional(at->second);
}

}  // namespace engine
