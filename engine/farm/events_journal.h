// engine/farm/events_journal.h -- what is said of entries: struck, put in order, settled.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "engine/farm/event_fields.h"

namespace engine {

// Takes an entry back; it stays readable, with the reason.
struct EntryStruck {
  static constexpr const char* kKind = "entry_struck";
  EntryRef entry;
  std::string reason;
  DUSKWALK_FIELDS(f("entry", s.entry), f("reason", s.reason))
};

// This tablet has seen events of others up to that clock (engine/farm/together.h): what it enters
// from now on comes after them, whatever its own wall clock says.
struct ClockFollowed {
  static constexpr const char* kKind = "clock_followed";
  std::int64_t after_utc_ms = 0;
  DUSKWALK_FIELDS(f("after_utc_ms", s.after_utc_ms))
};

// The keeper has looked at what several tablets say, and says what holds.
struct ContradictionSettled {
  static constexpr const char* kKind = "contradiction_settled";
  std::vector<EntryRef> entries;  // all its sides
  std::string decision;
  DUSKWALK_FIELDS(f("entries", s.entries), f("decision", s.decision))
};

}  // namespace engine
