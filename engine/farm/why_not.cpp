// Whether an entry fits, asked of its kind.
#include "engine/farm/fold.h"
#include "engine/farm/why_not_kinds.h"
#include "engine/farm/would_fall.h"

namespace engine {

Refusal why_it_does_not_fit(const Farm& farm, const Event& e) {
  if (const auto* opened = std::get_if<WalkOpened>(&e.body)) return why_not_open(farm, e, *opened);
  if (const auto* late = std::get_if<EnteredLate>(&e.body)) return why_not_late(farm, e, *late);
  if (const auto* c = std::get_if<EntryCorrected>(&e.body)) return why_not_corrected(farm, *c);
  return std::visit(
      [&]<class Kind>(const Kind& kind) {
        if constexpr (std::is_same_v<Kind, WalkOpened> || std::is_same_v<Kind, EntryCorrected>)
          return Refusal::None;
        else
          return why_not(farm, kind);
      },
      e.body);
}

Refusal why_not_on_record(const Farm& farm, const Event& e) {
  const std::int64_t* last = find(farm.last_seq, e.ref.device);
  if (e.ref.seq != (last ? *last : 0) + 1) return Refusal::SeqOutOfStep;
  return why_it_does_not_fit(farm, e);
}

Refusal why_not(const Farm& farm, const Event& e) {
  const Refusal r = why_not_on_record(farm, e);
  return r == Refusal::None ? why_not_tried(farm, e) : r;
}

}  // namespace engine
