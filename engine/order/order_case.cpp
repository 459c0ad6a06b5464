#include <fmt/format.h>

#include <cmath>
#include <set>

#include "engine/order/order.h"

namespace engine {
namespace {

bool is_length(double value) { return std::isfinite(value) && value >= 0; }
bool is_place(const OrderPoint& p) { return std::isfinite(p.x) && std::isfinite(p.y); }

std::string wrong_length(const char* field, double value) {
  return is_length(value) ? "" : fmt::format("{}: must be a number that is not negative", field);
}

std::string wrong_site(const OrderCase& c, const OrderSite& s, const std::string& field) {
  if (s.id.empty()) return field + ".id: must not be empty";
  if (!is_place(s.at)) return field + ".at: must be two finite numbers";
  if (!is_length(s.dwell_s)) return field + ".dwell_s: must be a number that is not negative";
  const bool timed = s.stage == OrderStage::Vapor || s.stage == OrderStage::Covered;
  if (timed && !std::isfinite(s.since_s)) return field + ".since_s: must be a finite number";
  if (timed && s.since_s > c.now_s) return field + ".since_s: is after now_s";
  if (s.cloth < 0 || s.cloth > c.cloths)
    return fmt::format("{}.cloth: must be from 1 to {}", field, c.cloths);
  return {};
}

std::string wrong_sites(const OrderCase& c) {
  std::set<std::string> names;
  std::set<int> lying;
  int vapor = 0, covered = 0;
  for (std::size_t i = 0; i < c.sites.size(); ++i) {
    const OrderSite& s = c.sites[i];
    const std::string field = fmt::format("colonies[{}]", i);
    if (std::string wrong = wrong_site(c, s, field); !wrong.empty()) return wrong;
    if (!names.insert(s.id).second) return fmt::format("{}.id: \"{}\" is used twice", field, s.id);
    vapor += s.stage == OrderStage::Vapor ? 1 : 0;
    covered += s.stage == OrderStage::Covered ? 1 : 0;
    if (s.stage == OrderStage::Covered && s.cloth > 0 && !lying.insert(s.cloth).second)
      return fmt::format("{}.cloth: cloth {} lies on another colony too", field, s.cloth);
  }
  if (vapor > c.vaporizers)
    return fmt::format("vaporizers: {} colonies are under vapor, more than there are", vapor);
  if (covered > c.cloths)
    return fmt::format("cloths: {} colonies are covered, more than there are", covered);
  return {};
}

}  // namespace

std::string what_is_wrong(const OrderCase& c) {
  if (!std::isfinite(c.walk_mps) || c.walk_mps <= 0) return "walk_mps: must be above 0";
  if (!is_place(c.gate)) return "gate: must be two finite numbers";
  if (c.operator_at && !is_place(*c.operator_at)) return "operator_at: must be two finite numbers";
  if (c.vaporizers < 1) return "vaporizers: there must be at least one";
  if (c.cloths < 1) return "cloths: there must be at least one";
  const std::pair<const char*, double> lengths[] = {
      {"seal_s", c.seal_s},
      {"handling_s.load_and_set", c.handling.load_and_set_s},
      {"handling_s.lift_and_cover", c.handling.lift_and_cover_s},
      {"handling_s.uncover", c.handling.uncover_s},
      {"now_s", c.now_s},
      {"finish_by_s", c.finish_by_s.value_or(0)}};
  for (const auto& [field, value] : lengths)
    if (std::string wrong = wrong_length(field, value); !wrong.empty()) return wrong;
  if (c.wind_from_deg && !std::isfinite(*c.wind_from_deg))
    return "wind_from_deg: must be a finite number";
  if (c.sites.size() > static_cast<std::size_t>(kMostSites))
    return fmt::format("colonies: more than {}", kMostSites);
  return wrong_sites(c);
}

}  // namespace engine
