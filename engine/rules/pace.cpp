#include "engine/rules/pace.h"

#include <utility>

namespace engine {

std::string what_is_wrong(const Pace& p) {
  if (p.walk_mm_s < 100 || p.walk_mm_s > 3000) return "walk_mm_s: must be from 100 to 3000";
  const std::pair<const char*, Seconds> lengths[] = {{"load_and_set", p.load_and_set},
                                                     {"lift_and_cover", p.lift_and_cover},
                                                     {"uncover", p.uncover}};
  for (const auto& [field, length] : lengths)
    if (length < Seconds{1} || length > Seconds{600})
      return std::string(field) + ": must be from 1 to 600 seconds";
  return {};
}

}  // namespace engine
