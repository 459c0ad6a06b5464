// tests/fuzz/sealing.h -- entries under a right hash, so that what is fuzzed gets past the chain.
#pragma once
#include <string_view>
#include <vector>

#include "storage/journal/record.h"

namespace fuzz {

// Each line that is a canonical entry, numbered anew within its tablet and sealed.
[[nodiscard]] std::vector<storage::Sealed> sealed_lines(std::string_view text);

}  // namespace fuzz
