// engine/events/event_fields.h -- how an event lists its fields, once, for JSON, state hash and
// tests.
#pragma once
#include <cstdint>

#include "engine/core/id.h"
#include "engine/events/kind_facts.h"

namespace engine {

#define DUSKWALK_FIELDS(...)           \
  template <class Self, class F>       \
  static void fields(Self& s, F&& f) { \
    (void)s, (void)f, __VA_ARGS__;     \
  }

// Names one entry of the journal.
struct EntryRef {
  DeviceId device;
  std::int64_t seq = 0;
  friend auto operator<=>(const EntryRef&, const EntryRef&) = default;
  DUSKWALK_FIELDS(f("device", s.device), f("seq", s.seq))
};

}  // namespace engine
