// storage/bundle/bag.h -- a bundle: an immutable folder in the BagIt form (RFC 8493).
//
//   duskwalk-2026-08-14-3f9a1c20-6b1d0c44e2a95f17/     the day, the device, 16 digits of the
//   SHA-256
//     bagit.txt  bag-info.txt  manifest-sha256.txt  tagmanifest-sha256.txt    of the manifest
//     data/...
//
// Writing: room checked; written under ".part-NAME"; every file, every folder and the whole medium
// flushed; cache dropped; read back and compared; renamed; flushed again. Only then Ok comes back,
// and the screen may say "safe to pull" (a mounted stick: after release() in stick.h).
// After any failure nothing lies under the final name, unless the medium was already gone when the
// finished bundle was to be taken back: then it is whole. What is left of an unfinished write
// (".part-") is removed by the next write of the same device to the same folder; a link or anything
// else of that name that a write does not leave is left alone and named (bag_left_overs.h). Nothing
// is written or removed outside the folder `parent` as it was when the write began.
//
// The same payload again: the one that is there is checked and nothing is written. If that one is
// damaged it is left alone, and a whole one is written beside it as NAME-2, NAME-3 ...
// No clock is read; nothing depends on the time of the tablet or the stick.
#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "storage/bundle/bag_text.h"
#include "storage/disk/files.h"
#include "storage/disk/media_errors.h"

namespace storage {

struct Payload {
  std::string path;  // below data/, FAT-safe: see why_not_writable in payload_path.h
  std::string bytes;
};

struct BagRequest {
  std::string parent;                   // the folder that gets the bundle; must be there
  Medium medium = Medium::Folder;       // which word the messages use
  std::optional<std::uint64_t> device;  // Stick::device: refuses to write when the stick is not
                                        // there any more and `parent` is the tablet's own disk
  std::string device_short;             // 4 to 16 of [a-z0-9]: engine::short_device
  std::string day;                      // YYYY-MM-DD, the day of the log
  std::string bagging_date;             // YYYY-MM-DD, today by the tablet's clock
  std::vector<Payload> payload;         // at least one file
  Tags tags;                            // further lines of bag-info.txt
  std::string readme;                   // of README.html at the top; empty: there is none
  // Asked between two pieces: true takes back what was written and fails.
  std::function<bool()> stopped = [] { return false; };
};

enum class BagStep { Writing, ReadingBack, Finishing };

struct BagProgress {
  BagStep step = BagStep::Writing;
  std::uint64_t done = 0, total = 0;  // bytes of this step
};
using OnProgress = std::function<void(const BagProgress&)>;

struct BagResult {
  std::string name;    // of the bundle's folder
  std::string folder;  // its whole path
  std::size_t files = 0;
  std::uint64_t bytes = 0;  // of the payload
  Hash manifest{};          // SHA-256 of manifest-sha256.txt
  bool already_there = false;
  std::string say;  // one line for the keeper
};

// Statuses: BadInput (the request), NotFound (no such folder), Full, ReadOnly, Gone, Damaged (the
// medium gave back other bytes), Failed.
[[nodiscard]] engine::Result<BagResult> write_bag(Files& files, const BagRequest& request,
                                                  const OnProgress& progress = {});
[[nodiscard]] engine::Result<BagResult> write_bag(const BagRequest& request,
                                                  const OnProgress& progress = {});

// The name that a bundle with this payload gets; the same request always gives the same name.
[[nodiscard]] engine::Result<std::string> bag_name(const BagRequest& request);

// A bundle of more bytes than this is not read: no log comes near it, and a hole in a file of a few
// bytes can be as large as a disk.
inline constexpr std::uint64_t kMostBagBytes = std::uint64_t{4} << 30;

struct BagReport {
  std::string name;
  std::vector<BagFile> payload;  // as listed in the manifest and found good
  Tags tags;
  std::uint64_t bytes = 0;  // of the payload as found
  Hash manifest{};
  Problems problems;               // anything that keeps the bundle from being whole
  std::vector<std::string> notes;  // harmless, such as a tag file that no manifest lists

  [[nodiscard]] bool whole() const { return problems.none(); }
  // Ok, or Damaged with the first problem and how many more there are.
  [[nodiscard]] engine::Status verdict() const;
};

// Reads everything in `folder` past the cache and compares. A failure Status means that it could
// not be looked at (NotFound: no such folder or not a bag; Gone; Failed); damage is in the report.
// Links are never followed and nothing outside `folder` is opened, whatever a manifest says; a
// caller who reads where others write holds a folder above first (Files::hold).
[[nodiscard]] engine::Result<BagReport> check_bag(Files& files, const std::string& folder,
                                                  Medium medium = Medium::Folder,
                                                  const OnProgress& progress = {});
[[nodiscard]] engine::Result<BagReport> check_bag(const std::string& folder,
                                                  Medium medium = Medium::Folder,
                                                  const OnProgress& progress = {});

// By what a bundle is told to have changed, without reading its files: a hash of their names, sizes
// and times. An empty one where it cannot be looked at.
[[nodiscard]] Hash bag_fingerprint(Files& files, const std::string& folder);

}  // namespace storage
