// What libFuzzer calls; DUSKWALK_FUZZ_TARGET names one of targets.h.
#include <cstddef>
#include <cstdint>

#include "tests/fuzz/targets.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fuzz::DUSKWALK_FUZZ_TARGET({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
