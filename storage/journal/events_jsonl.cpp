#include "storage/journal/events_jsonl.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace storage {
namespace {

constexpr std::string_view kOpen = R"({"event":)";
constexpr std::string_view kHash = R"(,"hash":")";
constexpr std::string_view kPrev = R"(","prev":")";
constexpr std::string_view kClose = R"("})";
constexpr std::size_t kHex = 64;
constexpr std::size_t kLongestLine = kLargestBody + 4096;  // a body and the fields around it
constexpr std::size_t kTail = kHash.size() + kHex + kPrev.size() + kHex + kClose.size();

// Takes `what` off the front; false when it is not there.
bool take(std::string_view& text, std::string_view what) {
  if (!text.starts_with(what)) return false;
  text.remove_prefix(what.size());
  return true;
}

bool take_hash(std::string_view& text, Hash& hash) {
  if (!from_hex(text.substr(0, kHex), hash)) return false;
  text.remove_prefix(kHex);
  return true;
}

std::optional<Sealed> read_line(std::string_view line) {
  Sealed sealed;
  if (!take(line, kOpen) || line.size() < kTail) return std::nullopt;
  const auto record = parse_canonical(line.substr(0, line.size() - kTail));
  if (!record.ok()) return std::nullopt;
  sealed.record = record.value();
  line.remove_prefix(line.size() - kTail);
  if (!take(line, kHash) || !take_hash(line, sealed.hash)) return std::nullopt;
  if (!take(line, kPrev) || !take_hash(line, sealed.prev)) return std::nullopt;
  if (line != kClose || !seal_holds(sealed)) return std::nullopt;
  return sealed;
}

}  // namespace

std::string events_jsonl(std::span<const Sealed> events) {
  std::string out;
  for (const Sealed& e : events) {
    out += kOpen;
    out += canonical(e.record);
    out += kHash;
    out += hex(e.hash);
    out += kPrev;
    out += hex(e.prev);
    out += kClose;
    out += '\n';
  }
  return out;
}

Result<std::vector<Sealed>> read_events_jsonl(std::string_view text) {
  std::vector<Sealed> events;
  for (std::size_t number = 1; !text.empty(); ++number) {
    const std::size_t end = text.find('\n');
    const auto sealed = read_line(text.substr(0, end));
    if (end == text.npos || !sealed)
      return Status(Code::Damaged,
                    fmt::format("events.jsonl, line {}: is no whole entry; copy the bundle again "
                                "from where it came from",
                                number));
    events.push_back(*sealed);
    text.remove_prefix(end + 1);
  }
  return events;
}

void EventLines::end_line(bool whole) {
  auto sealed = whole && !too_long_ ? read_line(line_) : std::nullopt;
  if (sealed)
    events_.push_back(std::move(*sealed));
  else if (bad_++ == 0)
    first_bad_ = number_;
  line_.clear();
  too_long_ = false;
  ++number_;
}

void EventLines::take(std::string_view piece) {
  while (!piece.empty()) {
    const std::size_t end = std::min(piece.find('\n'), piece.size());
    too_long_ = too_long_ || line_.size() + end > kLongestLine;
    if (!too_long_) line_ += piece.substr(0, end);
    if (end == piece.size()) return;
    end_line(true);
    piece.remove_prefix(end + 1);
  }
}

void EventLines::end() {
  if (!line_.empty() || too_long_) end_line(false);
}

}  // namespace storage
