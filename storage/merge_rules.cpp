#include "storage/merge_rules.h"

#include <fmt/format.h>

#include "storage/event_json.h"
#include "storage/journal_check.h"

namespace storage {
namespace {

constexpr std::int64_t kLastNumber = std::int64_t{1} << 53;  // beyond it no tablet ever counted

// Empty: the journal may be asked about it, and `event` is what it says.
std::string why_unfit(const Sealed& s, const std::string& own, std::int64_t& own_last,
                      engine::Event& event) {
  if (s.record.seq > kLastNumber)
    return fmt::format("entry {} of tablet {}: no tablet counts that far", s.record.seq,
                       short_name(s.record.device));
  auto read = to_event(s.record);
  if (!read.ok()) return read.status().message();
  event = std::move(read).value();
  if (s.record.device != own) return {};
  if (s.record.seq > own_last + 1)
    return fmt::format("entry {} of this tablet: entry {} is missing here", s.record.seq,
                       own_last + 1);
  own_last = std::max(own_last, s.record.seq);
  return {};
}

}  // namespace

std::map<std::string, std::int64_t> last_before_gap(const Held& held) {
  std::map<std::string, std::int64_t> last;
  for (const auto& [device, mine] : held) {
    const auto& ranges = mine.seqs.ranges();
    last[device] = ranges.empty() || ranges.front().first != 1 ? 0 : ranges.front().last;
  }
  return last;
}

// What the first one was, and how many more of that device share its lot.
std::vector<std::string> lines_of(const LeftOuts& left) {
  std::vector<std::string> lines;
  for (const auto& [device, out] : left)
    lines.push_back(out.count == 1 ? fmt::format("Left out: {}", out.first)
                                   : fmt::format("Left out: {}; and {} more of that tablet",
                                                 out.first, out.count - 1));
  return lines;
}

std::vector<engine::Event> take_fit(const Journal& journal, std::vector<Sealed>& events,
                                    LeftOuts& left) {
  std::int64_t own_last = journal.last(journal.device()).seq;
  std::vector<engine::Event> fit;
  fit.reserve(events.size());
  std::erase_if(events, [&](const Sealed& s) {
    engine::Event event;
    std::string why = why_unfit(s, journal.device(), own_last, event);
    if (why.empty()) {
      fit.push_back(std::move(event));
      return false;
    }
    LeftOut& out = left[s.record.device];
    if (out.count++ == 0) out.first = std::move(why);
    return true;
  });
  return fit;
}

bool has_gaps(const Held& held) {
  for (const auto& [device, unbroken] : last_before_gap(held))
    if (held.at(device).seqs.top() != unbroken) return true;
  return false;
}

std::vector<std::string> fork_lines(const std::vector<Fork>& forks) {
  LeftOuts left;
  for (const Fork& fork : forks) {
    LeftOut& out = left[fork.device];
    if (out.count++ > 0) continue;
    out.first = fmt::format(
        "entry {} of tablet {}: another one of that number is here, or its neighbours are, and the "
        "chain does not hold. A restored or copied tablet? Keep the bundle",
        fork.seq, short_name(fork.device));
  }
  return lines_of(left);
}

std::vector<std::string> gap_lines(const Held& held) {
  std::vector<std::string> lines;
  for (const auto& [device, unbroken] : last_before_gap(held)) {
    const SeqSet& here = held.at(device).seqs;
    if (here.top() == unbroken) continue;
    SeqSet all;
    all.add({1, here.top()});
    const std::int64_t waiting = here.count() - unbroken;
    lines.push_back(
        fmt::format("Gap: tablet {}: entries {} are missing; {} after them wait for "
                    "the bundle that holds them",
                    short_name(device), to_text(all.without(here)), waiting));
  }
  return lines;
}

}  // namespace storage
