// tests/bench/operation.h -- a generated operation: yards, colonies, tablets and years of entries,
// the same ones on every machine. Invented numbers for measuring, not advice.
#pragma once
#include <cstdint>
#include <functional>

#include "engine/core/id.h"
#include "storage/journal/record.h"

namespace operation {

struct Size {
  int colonies = 2000;
  int yards = 60;
  int tablets = 6;
  int years = 10;
  std::int64_t events = 1'000'000;  // the generator ends there, or when the years are over
};

// Tablet n's id, from 1.
[[nodiscard]] engine::DeviceId tablet(int n);

// Calls `take` with each entry, of each tablet in one chain, evening by evening. Every entry is
// possible where it comes, on its tablet and in the common order of all. Returns how many.
std::int64_t generate(const Size& size, const std::function<void(const storage::Sealed&)>& take);

}  // namespace operation
