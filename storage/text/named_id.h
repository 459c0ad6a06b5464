// storage/text/named_id.h -- ids that follow from words, so that whoever has the same words has the
// same id. Inside storage/ only.
#pragma once
#include <string_view>
#include <vector>

#include "engine/core/id.h"

namespace storage {

// The version-8 UUID (RFC 9562, section 5.8) of the first 16 bytes of SHA-256 over the lines, each
// ended by a line feed. The lines hold none themselves; the first one says what is named.
[[nodiscard]] engine::UuidBytes named_id(const std::vector<std::string_view>& lines);

}  // namespace storage
