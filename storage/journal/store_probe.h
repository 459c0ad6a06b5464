// storage/journal/store_probe.h -- what lies at a store's path, before SQLite may touch it.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "storage/journal/progress_mark.h"
#include "storage/journal/wal_image.h"

namespace storage {

[[nodiscard]] std::string wal_path(const std::string& path);
[[nodiscard]] std::string tip_path(const std::string& path);

struct Look {
  bool busy = false;
  bool writable = true;
  std::int64_t size = 0;
  std::int64_t wal_size = 0;
  bool wal_there = false;
  std::string in_the_way;  // a link, say, in the place of a file that SQLite needs; empty: none
  StoreHeader header;
  bool half_made = false;  // a power cut came while the store was being made
  bool tip_there = false;  // a store stood here once
  std::optional<ProgressMark> tip;
};

[[nodiscard]] Look look_at(const std::string& vfs, const std::string& path);

[[nodiscard]] std::optional<ProgressMark> read_tip(const std::string& vfs, const std::string& path);

}  // namespace storage
