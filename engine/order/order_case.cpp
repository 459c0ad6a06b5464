#include <fmt/format.h>

#include <cmath>
#include <set>

#include "engine/order/order.h"

namespace engine {
namespace {

// Far beyond any walk; sums of a thousand colonies stay far below what the search takes for never.
constexpr double kLongest = 1e9;   // seconds
constexpr double kFarthest = 1e7;  // metres
constexpr double kSlowest = 1e-3;  // metres a second
constexpr int kMostKit = 10'000;   // vaporizers or cloths

bool is_length(double value) { return value >= 0 && value <= kLongest; }
bool is_place(const OrderPoint& p) {
  return std::abs(p.x) <= kFarthest && std::abs(p.y) <= kFarthest;  // NaN is not
}

std::string wrong_length(const std::string& field, double value) {
  if (is_length(value)) return {};
  return field + (value > kLongest ? ": must be at most 1e9 seconds"
                                   : ": must be a number that is not negative");
}

std::string wrong_place(const std::string& field, const OrderPoint& p) {
  if (is_place(p)) return {};
  const bool finite = std::isfinite(p.x) && std::isfinite(p.y);
  return field + (finite ? ": must be within 1e7 metres" : ": must be two finite numbers");
}

std::string wrong_number(const char* field, int number) {
  if (number < 1) return fmt::format("{}: there must be at least one", field);
  return number > kMostKit ? fmt::format("{}: must be at most {}", field, kMostKit) : "";
}

std::string wrong_site(const OrderCase& c, const OrderSite& s, const std::string& field) {
  if (s.id.empty()) return field + ".id: must not be empty";
  if (std::string wrong = wrong_place(field + ".at", s.at); !wrong.empty()) return wrong;
  if (std::string wrong = wrong_length(field + ".dwell_s", s.dwell_s); !wrong.empty()) return wrong;
  const bool timed = s.stage == OrderStage::Vapor || s.stage == OrderStage::Covered;
  if (timed && !std::isfinite(s.since_s)) return field + ".since_s: must be a finite number";
  if (timed && s.since_s < -kLongest) return field + ".since_s: is more than 1e9 seconds ago";
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
  if (c.walk_mps < kSlowest) return "walk_mps: must be at least 0.001";
  if (std::string wrong = wrong_place("gate", c.gate); !wrong.empty()) return wrong;
  if (c.operator_at)
    if (std::string wrong = wrong_place("operator_at", *c.operator_at); !wrong.empty())
      return wrong;
  if (std::string wrong = wrong_number("vaporizers", c.vaporizers); !wrong.empty()) return wrong;
  if (std::string wrong = wrong_number("cloths", c.cloths); !wrong.empty()) return wrong;
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
