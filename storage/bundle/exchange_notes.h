// storage/bundle/exchange_notes.h -- what the bundles of an exchange folder hold, by name. Inside
// storage/ only.
//
//   duskwalk exchange 2
//   bundle NAME DEVICE 1-40,45
//   bundle NAME DEVICE 7
//   side NAME HASH                one of another side of a fork, as this store has them
//   refused NAME HASH             read, and not whole then; HASH: of its files' names, sizes and
//   times check 64 hex digits           SHA-256 of the lines above
#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "storage/journal/known_events.h"

namespace storage {

// Beside the store.

struct BundleNote {
  SeqRangesByDevice numbers;
  std::set<Hash> sides;
  std::optional<Hash> refused;  // then nothing else; it is read again when its files have changed

  bool operator==(const BundleNote&) const = default;
};
using ExchangeNotes = std::map<std::string, BundleNote>;  // by the bundle's name

[[nodiscard]] std::string to_text(const ExchangeNotes& notes);
// Whether a folder of that name can be a bundle's: of the letters, digits and marks in the names
// that storage/bundle/bag.h gives, so that it breaks no line of the notes.
[[nodiscard]] bool is_bundle_name(std::string_view name);
// Empty notes when the text is torn or none: then every bundle is read again.
[[nodiscard]] ExchangeNotes parse_exchange_notes(std::string_view text);

}  // namespace storage
