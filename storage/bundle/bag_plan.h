// storage/bundle/bag_plan.h -- everything a bundle will hold, worked out before the medium is
// touched.
//
// Internal to storage. Pure: the same request gives the same plan, to the byte. The plan points
// into the request's payload and must not outlive it.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"
#include "storage/bundle/bag.h"

namespace storage {

inline constexpr const char* kReadmeName = "README.html";

struct PlannedFile {
  std::string path;  // within the bundle, "data/day.csv" or "bagit.txt"
  std::string_view bytes;
  Hash hash{};
};

struct BagPlan {
  std::string name;
  std::vector<std::string> folders;  // within the bundle, parents first: "data", "data/maps"
  std::vector<PlannedFile> files;    // payload first, tagmanifest-sha256.txt last
  std::vector<std::string> texts;    // owns what the tag files of `files` point to
  std::uint64_t payload_bytes = 0, all_bytes = 0;
  Hash manifest{};

  BagPlan() = default;
  BagPlan(const BagPlan&) = delete;  // `files` points into `texts`
  BagPlan& operator=(const BagPlan&) = delete;
  BagPlan(BagPlan&&) = default;
  BagPlan& operator=(BagPlan&&) = default;
};

[[nodiscard]] engine::Result<BagPlan> plan_bag(const BagRequest& request);

// Bytes the plan takes on a medium that hands out pieces of `block` bytes, with a margin of 64 KiB
// and 16 pieces for folder entries and the file system's own tables (common practice, no source).
[[nodiscard]] std::uint64_t room_needed(const BagPlan& plan, std::uint64_t block);

// ".part-" and the name; and whether `name` is one that `device_short` left behind.
[[nodiscard]] std::string part_name(const std::string& name);
[[nodiscard]] bool is_left_over(const std::string& name, const std::string& device_short);

}  // namespace storage
