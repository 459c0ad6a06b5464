#include "storage/journal/known_events.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace storage {
namespace {

bool take_number(std::string_view& text, std::int64_t& value) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || value < 1) return false;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return true;
}

bool take_sign(std::string_view& text, char sign) {
  if (text.empty() || text.front() != sign) return false;
  text.remove_prefix(1);
  return true;
}

}  // namespace

void SeqRanges::add(SeqRange range) {
  if (range.last < range.first) return;
  const auto touches_from = std::find_if(
      ranges_.begin(), ranges_.end(), [&](const SeqRange& r) { return r.last >= range.first - 1; });
  auto end = touches_from;
  for (; end != ranges_.end() && end->first - 1 <= range.last; ++end) {
    range.first = std::min(range.first, end->first);
    range.last = std::max(range.last, end->last);
  }
  ranges_.insert(ranges_.erase(touches_from, end), range);
}

bool SeqRanges::holds(std::int64_t seq) const {
  return std::any_of(ranges_.begin(), ranges_.end(),
                     [&](const SeqRange& r) { return r.first <= seq && seq <= r.last; });
}

std::int64_t SeqRanges::count() const {
  std::int64_t sum = 0;
  for (const SeqRange& r : ranges_) sum += r.last - r.first + 1;
  return sum;
}

SeqRanges SeqRanges::without(const SeqRanges& other) const {
  SeqRanges left;
  for (SeqRange mine : ranges_) {
    for (const SeqRange& theirs : other.ranges_) {
      if (theirs.last < mine.first || theirs.first > mine.last) continue;
      left.add(SeqRange{mine.first, theirs.first - 1});
      mine.first = theirs.last + 1;
    }
    left.add(mine);
  }
  return left;
}

void hold(KnownEvents& held, const std::string& device, std::int64_t seq, const Hash& hash) {
  KnownOfDevice& mine = held[device];
  mine.seqs.add(seq);
  if (seq >= mine.head.seq) mine.head = {seq, hash};
}

std::int64_t count(const SeqRangesByDevice& sets) {
  std::int64_t sum = 0;
  for (const auto& [device, set] : sets) sum += set.count();
  return sum;
}

std::string to_text(const SeqRanges& set) {
  std::string text;
  for (const SeqRange& r : set.ranges()) {
    if (!text.empty()) text += ',';
    text += r.first == r.last ? fmt::format("{}", r.first) : fmt::format("{}-{}", r.first, r.last);
  }
  return text;
}

bool parse_seqs(std::string_view text, SeqRanges& set) {
  set = {};
  while (!text.empty()) {
    SeqRange r;
    if (!take_number(text, r.first)) return false;
    r.last = r.first;
    if (take_sign(text, '-') && !take_number(text, r.last)) return false;
    if (r.last < r.first || r.first <= set.top()) return false;
    set.add(r);
    if (!text.empty() && !take_sign(text, ',')) return false;
  }
  return true;
}

}  // namespace storage
