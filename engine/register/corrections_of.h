// engine/register/corrections_of.h -- what an entry says and what it should have said, one after
// the other.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// Words of an entry, and in whose place they hold.
struct Said {
  const Entry& first;  // when and where
  const Entry& by;     // the entry that says them: the first, or a correction
  [[nodiscard]] bool counts() const { return by.counts(); }
};

// The correction that struck this very entry; null: it stands, or was struck.
[[nodiscard]] EntryHandle correction_after(const Farm& farm, const Entry& e);

// Calls `each(Said, body)` for the entry and for each of its corrections. Nothing for a correction:
// its turn comes with the entry in whose place it holds.
template <class Each>
void each_said(const Farm& farm, const Entry& e, Each each) {
  if (std::holds_alternative<EntryCorrected>(e.event.body)) return;
  each(Said{e, e}, e.event.body);
  for (EntryHandle c = correction_after(farm, e); c != nullptr; c = correction_after(farm, *c))
    each(Said{e, *c}, body_of(std::get<EntryCorrected>(c->event.body).instead));
}

}  // namespace engine
