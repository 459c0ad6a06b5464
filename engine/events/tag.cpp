#include "engine/events/tag.h"

#include <cassert>
#include <cctype>

namespace engine {
namespace {

constexpr std::string_view kHead = "DW";
constexpr std::size_t kDigits = 32;

char capital(char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); }

std::string plain(std::string_view scanned) {
  std::string out;
  for (const char c : scanned)
    if (std::isspace(static_cast<unsigned char>(c)) == 0) out += capital(c);
  return out;
}

// With the dashes that the text of a UUID has.
std::string dashed(const std::string& digits) {
  assert(digits.size() == kDigits);
  return digits.substr(0, 8) + "-" + digits.substr(8, 4) + "-" + digits.substr(12, 4) + "-" +
         digits.substr(16, 4) + "-" + digits.substr(20);
}

}  // namespace

std::string tag_of(ColonyId colony) {
  std::string out(kHead);
  for (const char c : uuid_text(colony.bytes))
    if (c != '-') out += capital(c);
  return out;
}

std::optional<ColonyId> colony_of_tag(std::string_view scanned) {
  const std::string tag = plain(scanned);
  if (tag.size() != kHead.size() + kDigits || !tag.starts_with(kHead)) return std::nullopt;
  const auto bytes = uuid_from_text(dashed(tag.substr(kHead.size())));
  return bytes ? std::optional(ColonyId{*bytes}) : std::nullopt;
}

}  // namespace engine
