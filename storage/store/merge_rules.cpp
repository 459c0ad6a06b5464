#include "storage/store/merge_rules.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/words/words.h"
#include "storage/journal/journal_check.h"
#include "storage/store/event_json.h"
#include "storage/store/intake_bounds.h"

namespace storage {
namespace {

constexpr std::int64_t kLastNumber = std::int64_t{1} << 53;  // beyond it no tablet ever counted

// Empty: the journal may be asked about it, and `event` is what it says.
std::string why_unfit(const Sealed& s, engine::Event& event) {
  if (s.record.seq > kLastNumber)
    return fmt::format("entry {} of tablet {}: no tablet counts that far", s.record.seq,
                       short_name(s.record.device));
  auto read = to_event(s.record);
  if (!read.ok()) return read.status().message();
  if (const std::string wrong = why_not_taken_in(read.value()); !wrong.empty())
    return fmt::format("entry {} of tablet {}: {}", s.record.seq, short_name(s.record.device),
                       wrong);
  event = std::move(read).value();
  return {};
}

std::string gap_line(const std::string& device, const SeqRanges& missing, std::int64_t waiting) {
  return fmt::format(
      "Gap: tablet {}: entries {} are missing; {} after them wait for the bundle that holds them",
      short_name(device), to_text(missing), waiting);
}

}  // namespace

std::map<std::string, std::int64_t> last_before_gap(const KnownEvents& held) {
  std::map<std::string, std::int64_t> last;
  for (const auto& [device, mine] : held) {
    const auto& ranges = mine.seqs.ranges();
    last[device] = ranges.empty() || ranges.front().first != 1 ? 0 : ranges.front().last;
  }
  return last;
}

std::set<std::string> tablets_with_sides(const Journal& journal) {
  std::set<std::string> devices;
  for (const ForkRow& side : journal.sides()) devices.insert(side.sealed.record.device);
  return devices;
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

std::vector<engine::Event> take_fit(std::vector<Sealed>& events, LeftOuts& left) {
  std::vector<engine::Event> fit;
  fit.reserve(events.size());
  std::erase_if(events, [&](const Sealed& s) {
    engine::Event event;
    std::string why = why_unfit(s, event);
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

std::string over_bounds_line(const std::string& device, std::int64_t entries) {
  return fmt::format(
      "Left out: {} of tablet {}: too many of its entries are missing or were written twice; take "
      "in a bundle with all of them, and these again",
      engine::counted(static_cast<std::size_t>(entries), "entry", "entries"), short_name(device));
}

std::vector<std::string> fork_lines(const std::vector<Fork>& forks, const ForkTrees& trees) {
  std::map<std::string, std::vector<std::int64_t>> numbers;
  for (const Fork& fork : forks)
    if (!trees.at(fork.device).branches().empty()) numbers[fork.device].push_back(fork.seq);
  std::vector<std::string> lines;
  for (const auto& [device, all] : numbers)
    lines.push_back(fmt::format(
        "Fork: a copy of tablet {} was written on too: {} from {} on came in beside those that "
        "were here. Both sides are kept and count; settle it with the contradictions",
        short_name(device), engine::counted(all.size(), "entry", "entries"),
        *std::min_element(all.begin(), all.end())));
  return lines;
}

std::vector<std::string> gap_lines(const KnownEvents& held, const ForkTrees& trees) {
  std::vector<std::string> lines;
  for (const auto& [device, missing] : missing_in(held, trees)) {
    const auto tree = trees.find(device);
    const std::int64_t waiting =
        tree != trees.end() ? tree->second.waiting()
                            : held.at(device).seqs.count() - last_before_gap(held).at(device);
    lines.push_back(gap_line(device, missing, waiting));
  }
  return lines;
}

}  // namespace storage
