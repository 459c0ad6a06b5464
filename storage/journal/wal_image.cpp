#include "storage/journal/wal_image.h"

#include <algorithm>
#include <bit>
#include <map>

namespace storage {
namespace {

constexpr std::size_t kStoreHeader = 100;
constexpr std::size_t kWalHeader = 32;
constexpr std::size_t kFrameHeader = 24;
constexpr std::uint32_t kWalMagic = 0x377f0682;  // lowest bit set: big-endian checksums
constexpr std::string_view kMagic{"SQLite format 3\0", 16};

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::uint32_t big32(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 24 | byte_at(bytes, at + 1) << 16 | byte_at(bytes, at + 2) << 8 |
         byte_at(bytes, at + 3);
}

std::uint32_t little32(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at + 3) << 24 | byte_at(bytes, at + 2) << 16 | byte_at(bytes, at + 1) << 8 |
         byte_at(bytes, at);
}

void put_big32(std::string& bytes, std::size_t at, std::uint32_t value) {
  for (std::size_t i = 0; i < 4; ++i) bytes[at + i] = static_cast<char>(value >> (24 - 8 * i));
}

// The running checksum of the log (section 4.2).
struct WalSum {
  bool big_endian = false;
  std::uint32_t s0 = 0, s1 = 0;

  void add(std::string_view bytes) {
    for (std::size_t i = 0; i + 8 <= bytes.size(); i += 8) {
      s0 += (big_endian ? big32(bytes, i) : little32(bytes, i)) + s1;
      s1 += (big_endian ? big32(bytes, i + 4) : little32(bytes, i + 4)) + s0;
    }
  }
  [[nodiscard]] bool is(std::string_view bytes, std::size_t at) const {
    return s0 == big32(bytes, at) && s1 == big32(bytes, at + 4);
  }
};

bool read_wal_header(std::string_view wal, WalSum& sum) {
  if (wal.size() < kWalHeader || (big32(wal, 0) & ~1U) != kWalMagic) return false;
  if (big32(wal, 8) != kPageSize) return false;
  sum.big_endian = (big32(wal, 0) & 1U) != 0;
  sum.add(wal.substr(0, 24));
  return sum.is(wal, 24);
}

using Pages = std::map<std::uint32_t, std::string_view>;  // page number, from 1 -> its bytes

void lay(std::string& image, const Pages& pages, std::uint32_t page_count) {
  image.resize(page_count * kPageSize);
  for (const auto& [number, bytes] : pages) {
    if (number <= page_count) bytes.copy(image.data() + (number - 1) * kPageSize, kPageSize);
  }
}

// Whole transactions only: pages since the last commit frame wait in `open`.
void lay_wal(std::string& image, std::string_view wal) {
  WalSum sum;
  if (!read_wal_header(wal, sum)) return;
  const std::string_view salt = wal.substr(16, 8);
  Pages open;
  for (std::size_t at = kWalHeader; at + kFrameHeader + kPageSize <= wal.size();
       at += kFrameHeader + kPageSize) {
    const std::string_view frame = wal.substr(at, kFrameHeader + kPageSize);
    sum.add(frame.substr(0, 8));
    sum.add(frame.substr(kFrameHeader));
    const std::uint32_t number = big32(frame, 0);
    if (number == 0 || frame.substr(8, 8) != salt || !sum.is(frame, 16)) return;
    open[number] = frame.substr(kFrameHeader);
    if (const std::uint32_t page_count = big32(frame, 4); page_count != 0) {
      lay(image, open, page_count);
      open.clear();
    }
  }
}

}  // namespace

std::string merged_image(std::string_view store, std::string_view wal) {
  std::string image(store);
  lay_wal(image, wal);
  // An image in memory has no log beside it: say "no write-ahead log" where the store says so.
  if (image.size() >= kStoreHeader && image[18] == 2 && image[19] == 2) image[18] = image[19] = 1;
  return image;
}

std::string with_fresh_header(std::string image) {
  image.resize(std::max(image.size(), kPageSize));
  kMagic.copy(image.data(), kMagic.size());
  put_big32(image, 16, kPageSize << 16 | 0x0101U);  // page size, write and read version 1
  put_big32(image, 20, 0x00402020U);  // no reserved bytes; the fixed payload fractions
  put_big32(image, 28, static_cast<std::uint32_t>(image.size() / kPageSize));
  put_big32(image, 32, 0);  // no free list
  put_big32(image, 36, 0);
  put_big32(image, 44, 4);  // schema format
  put_big32(image, 52, 0);  // no auto-vacuum
  put_big32(image, 56, 1);  // UTF-8
  put_big32(image, 64, 0);
  put_big32(image, 92, big32(image, 24));  // the size above is valid
  return image;
}

StoreHeader read_header(std::string_view store) {
  if (store.size() < kStoreHeader || !store.starts_with(kMagic)) return {};
  const bool ours = big32(store, 16) >> 16 == kPageSize &&
                    big32(store, 68) == static_cast<std::uint32_t>(kApplicationId);
  return {ours, std::bit_cast<std::int32_t>(big32(store, 60))};
}

}  // namespace storage
