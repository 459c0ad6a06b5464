#include "tests/fuzz/changes.h"

#include <cstdint>

namespace fuzz {
namespace {

constexpr std::size_t kMost = std::size_t{1} << 20;  // bytes a file may grow to

void change_one(std::string& file, unsigned how, std::size_t place, unsigned value) {
  if (file.empty()) return;
  const std::size_t at = place % file.size();
  if (how == 0) file[at] = static_cast<char>(value);
  if (how == 1) file[at] = static_cast<char>(static_cast<unsigned char>(file[at]) ^ value);
  if (how == 2) file.resize(at);
  if (how == 3 && file.size() < kMost) file.insert(at, file.substr(at, value * 16));
}

}  // namespace

void change(std::vector<std::string*> files, std::string_view changes) {
  for (; changes.size() >= 4; changes.remove_prefix(4)) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(changes[i]); };
    const std::size_t which = byte(0) >> 2U;
    change_one(*files[which % files.size()], byte(0) & 3U, byte(1) * 256U + byte(2), byte(3));
  }
}

}  // namespace fuzz
