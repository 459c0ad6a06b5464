// storage/journal/wal_image.h -- the database as SQLite would see it, put together in memory.
//
// Pure bytes in, bytes out, so that a damaged or write-protected store can be read without any
// program touching it. Layout from "Database File Format" of the SQLite documentation, sections 1.3
// (header) and 4 (write-ahead log); read in Debian's sqlite3-doc 3.40.1.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace storage {

inline constexpr std::size_t kPageSize = 4096;              // of every store we make
inline constexpr std::int32_t kApplicationId = 0x4475736b;  // "Dusk"

// The store with all whole transactions of its write-ahead log laid over it; later frames are
// dropped from the first broken one on, as SQLite does. Ready for sqlite3_deserialize.
[[nodiscard]] std::string merged_image(std::string_view store, std::string_view wal);

// The same bytes with the first 100 written anew, as every store of ours has them.
[[nodiscard]] std::string with_fresh_header(std::string image);

struct StoreHeader {
  bool ours = false;         // an SQLite file with our mark and page size
  std::int32_t version = 0;  // format version in the header (user_version)
};
[[nodiscard]] StoreHeader read_header(std::string_view store);

}  // namespace storage
