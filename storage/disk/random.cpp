#include "storage/disk/random.h"

#include <sodium.h>

#include <cstdlib>

namespace storage {

engine::UuidBytes new_uuid(std::int64_t unix_ms) {
  if (sodium_init() < 0) std::abort();  // 1: it was ready already
  std::uint64_t random[2];
  randombytes_buf(random, sizeof random);
  return engine::uuid_v7(unix_ms, random[0], random[1]);
}

engine::UuidBytes IdMaker::operator()(std::int64_t unix_ms) {
  const std::uint64_t a = numbers_();
  const std::uint64_t b = numbers_();
  return engine::uuid_v7(unix_ms, a, b);
}

}  // namespace storage
