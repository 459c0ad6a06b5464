#include "engine/mites/board.h"

#include <cassert>

#include "engine/mites/distributions.h"

namespace engine::mites {

BoardEstimate estimate(const BoardCount& count, double factor, double uncertainty, double conf) {
  assert(count.days > 0 && count.fallen >= 0);
  const double per_day = static_cast<double>(count.fallen) / count.days;
  const Limits fallen = garwood(count.fallen, conf);
  return {per_day, per_day * factor, fallen.low / count.days * factor / uncertainty,
          fallen.high / count.days * factor * uncertainty};
}

}  // namespace engine::mites
