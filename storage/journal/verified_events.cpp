#include "storage/journal/verified_events.h"

#include <fmt/format.h>

#include "storage/journal/journal_check.h"

namespace storage {
namespace {

Status look_at(const Sealed& s) {
  const Status formed = well_formed(s.record);
  if (!formed.ok()) return formed;
  if (seal_holds(s)) return {};
  return {Code::Damaged, fmt::format("Event {} of tablet {} is not as it was written. Nothing was "
                                     "taken; get the bundle again.",
                                     s.record.seq, short_name(s.record.device))};
}

}  // namespace

Result<VerifiedEvents> VerifiedEvents::of(std::vector<Sealed> events) {
  for (const Sealed& s : events)
    if (const Status whole = look_at(s); !whole.ok()) return whole;
  return VerifiedEvents(std::move(events));
}

}  // namespace storage
