#include "ui/screens/walk/plan/walk_opening.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/method/obey.h"
#include "engine/rounds/due.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {
namespace {

std::string reason(const Look& look, const Opening& opening) {
  if (!opening.only.empty()) return "varroa, come-back";
  const auto course =
      opening.course ? look.farm.courses.find(*opening.course) : look.farm.courses.end();
  if (course == look.farm.courses.end() || course->second.ended) return "varroa";
  const auto rounds = engine::rounds_of(look.farm, course->second);
  const auto next = std::find_if(rounds.begin(), rounds.end(),
                                 [](const engine::RoundState& r) { return !r.walked; });
  if (next == rounds.end() || next->planned > look.today()) return "varroa";
  return fmt::format("varroa, round {} of {}", next - rounds.begin() + 1, rounds.size());
}

std::vector<engine::ColonyId> ids_to_walk(const Look& look, const Opening& opening) {
  std::vector<engine::ColonyId> ids;
  for (const engine::Colony* c : colonies_to_walk(look, opening)) ids.push_back(c->id);
  return ids;
}

}  // namespace

std::vector<const engine::Colony*> colonies_to_walk(const Look& look, const Opening& opening) {
  auto all = engine::colonies_to_treat(look.farm, *opening.yard);
  if (opening.only.empty()) return all;
  std::erase_if(all, [&](const engine::Colony* c) {
    return std::find(opening.only.begin(), opening.only.end(), c->id) == opening.only.end();
  });
  return all;
}

std::vector<std::string> walk_against_label(const Look& look, const Opening& opening) {
  if (!look.farm.setup.rules) return {};
  // Honey supers are asked about hive by hive.
  return engine::against_label(look.farm, ids_to_walk(look, opening), *look.farm.setup.rules,
                               look.today());
}

std::vector<engine::ColonyId> walk_brood_not_known(const Look& look, const Opening& opening) {
  if (!look.farm.setup.rules) return {};
  return engine::brood_not_known(look.farm, ids_to_walk(look, opening), *look.farm.setup.rules,
                                 look.today());
}

std::string walk_brood_question(const Look& look, const Opening& opening) {
  if (!look.farm.setup.rules) return {};
  return engine::brood_question(look.farm, ids_to_walk(look, opening), *look.farm.setup.rules,
                                look.today());
}

engine::WalkOpened walk_opening(const Look& look, const WalkView& view) {
  engine::WalkOpened o;
  o.walk = engine::WalkId{look.fresh_id};
  o.yard = *view.opening.yard;
  o.course = view.opening.course;
  o.conditions = view.opening.conditions;
  o.rules = look.farm.setup.rules.value_or(engine::LabelRules{});
  for (const engine::Colony* c : colonies_to_walk(look, view.opening)) o.colonies.push_back(c->id);
  for (const auto* v : carried(look, view, engine::KitSort::Vaporizer))
    o.vaporizers.push_back(v->id);
  for (const auto* c : carried(look, view, engine::KitSort::Cloth)) o.cloths.push_back(c->id);
  if (const engine::KitItem* r = respirator_of(look)) o.respirator = r->id;
  o.operator_name = look.farm.setup.operator_name;
  o.operator_address = look.farm.setup.operator_address;
  o.reason = reason(look, view.opening);
  for (const std::string& line : walk_against_label(look, view.opening))
    o.reason += "; against the label: " + line;
  if (const std::string line = walk_brood_question(look, view.opening); !line.empty())
    o.reason += "; " + line;
  return o;
}

}  // namespace ui
