// engine/events/events_tablets.h -- whose entries count: the keys of tablets, and what was decided
// about them (storage/TRUST.md). The farm does not ask; the store does, before it folds.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/events/event_fields.h"

namespace engine {

// This tablet signs with that key from now on.
struct TabletKeyed {
  static constexpr const char* kKind = "tablet_keyed";
  static constexpr KindFacts kFacts = kOfReading;
  std::string key;  // Ed25519, 64 hex digits
  DUSKWALK_FIELDS(f("key", s.key))
};

// On this tablet, and for no other. The first one closes the door: from then on only those count
// that are known, paired or taken in. Texts, not EntryRef: what a fork makes of ids is no matter.
struct TabletTrusted {
  static constexpr const char* kKind = "tablet_trusted";
  static constexpr KindFacts kFacts = kOfReading;
  std::optional<std::string> key;       // paired: 64 hex digits, or the 20 of its eight words
  std::optional<std::string> tablet;    // taken in: the id,
  std::optional<std::int64_t> through;  // and the last number that was looked at
  std::optional<std::vector<std::string>>
      known;  // ids whose entries were here when the door closed
  DUSKWALK_FIELDS(f("key", s.key), f("tablet", s.tablet), f("through", s.through),
                  f("known", s.known))
};

// Nothing of that tablet counts here from that number on; later entries of its key neither.
struct TabletRefused {
  static constexpr const char* kKind = "tablet_refused";
  static constexpr KindFacts kFacts = kOfReading;
  std::string tablet;
  std::int64_t from = 1;
  std::optional<std::string> key;  // 64 hex digits
  DUSKWALK_FIELDS(f("tablet", s.tablet), f("from", s.from), f("key", s.key))
};

}  // namespace engine
