#include "engine/words/wrong_clocks.h"

#include <fmt/format.h>

#include "engine/words/words.h"

namespace engine {
namespace {

std::string day_of(std::int64_t utc_ms) {
  return iso_date(local_date(Stamp{Utc{Ms{utc_ms}}, {}, {}, {}}));
}

}  // namespace

std::string words(const WrongClock& w) {
  const std::string says =
      fmt::format("The clock of tablet {} says {} (entry {}{})", short_device(w.entry.device),
                  day_of(w.says_utc_ms), w.entry.seq,
                  w.entries > 1 ? fmt::format(", and {} before it", w.entries - 1) : "");
  if (!w.or_else)
    return says + ". It does not decide which entry is the last one; set that tablet's clock.";
  if (w.or_else->device == w.entry.device)
    return fmt::format(
        "{}, and less in entry {}. One of the two is wrong; look at that tablet's clock.", says,
        w.or_else->seq);
  return fmt::format(
      "{}, and that of tablet {}, which read it, less (entry {}). One of them is wrong by days; "
      "set "
      "it right.",
      says, short_device(w.or_else->device), w.or_else->seq);
}

}  // namespace engine
