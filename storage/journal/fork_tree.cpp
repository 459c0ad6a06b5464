#include "storage/journal/fork_tree.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "storage/text/named_id.h"

namespace storage {
namespace {

constexpr std::uint32_t kWaits = 0;  // its place in ids_ names nothing
constexpr std::uint32_t kTrunk = 1;

}  // namespace

engine::DeviceId derived_id(const std::string& device, const Hash& hash) {
  return {named_id({"duskwalk side", device, hex(hash)})};
}

engine::Branches branches_in(const ForkTrees& trees) {
  engine::Branches all;
  for (const auto& [device, tree] : trees)
    all.insert(all.end(), tree.branches().begin(), tree.branches().end());
  std::sort(all.begin(), all.end());
  return all;
}

ForkTree::ForkTree(const std::string& device, std::vector<ChainLink> links)
    : links_(std::move(links)) {
  std::sort(links_.begin(), links_.end());
  links_.erase(std::unique(links_.begin(), links_.end()), links_.end());
  name_all(device, count_followers());
  std::sort(branches_.begin(), branches_.end());
}

std::optional<std::size_t> ForkTree::find(std::int64_t seq, const Hash& hash) const {
  const auto key = [](const ChainLink& l) { return std::pair(l.seq, l.hash); };
  const auto at =
      std::lower_bound(links_.begin(), links_.end(), std::pair(seq, hash),
                       [&](const ChainLink& l, const auto& wanted) { return key(l) < wanted; });
  if (at == links_.end() || key(*at) != std::pair(seq, hash)) return std::nullopt;
  return static_cast<std::size_t>(at - links_.begin());
}

// The place of the one it hangs on; that behind the last one: it is a first event.
std::optional<std::size_t> ForkTree::before(std::size_t at) const {
  const ChainLink& link = links_[at];
  if (link.seq == 1 && link.prev == Hash{}) return links_.size();
  return link.seq > 1 ? find(link.seq - 1, link.prev) : std::nullopt;
}

// By place, and at the end for the beginning; notes what waits and what is missing. An event comes
// after the one it hangs on.
std::vector<std::size_t> ForkTree::count_followers() {
  std::vector<std::size_t> followers(links_.size() + 1, 0);
  names_.assign(links_.size(), kWaits);
  std::int64_t reached = 0, below = 0;  // the highest number that hangs on, and the one under it
  for (std::size_t i = 0; i < links_.size(); ++i) {
    const auto on = before(i);
    const std::int64_t seq = links_[i].seq;
    if (on && (*on == links_.size() || names_[*on] != kWaits)) {
      names_[i] = kTrunk;
      ++followers[*on];
      if (seq > reached) below = std::exchange(reached, seq);
      continue;
    }
    ++waiting_;
    const std::int64_t known = reached < seq ? reached : below;
    if (!on) missing_.add(SeqRange{std::min(known, seq - 2) + 1, seq - 1});
  }
  return followers;
}

void ForkTree::name_all(const std::string& device, const std::vector<std::size_t>& followers) {
  const engine::DeviceId own{engine::uuid_from_text(device).value_or(engine::UuidBytes{})};
  ids_ = {{}, own};
  for (std::size_t i = 0; i < links_.size(); ++i) {
    if (names_[i] == kWaits) continue;
    const std::size_t on = *before(i);
    const std::uint32_t name = on == links_.size() ? kTrunk : names_[on];
    names_[i] = name;
    if (followers[on] < 2) continue;
    names_[i] = static_cast<std::uint32_t>(ids_.size());
    ids_.push_back(derived_id(device, links_[i].hash));
    branches_.push_back({ids_.back(), own, ids_[name], links_[i].seq});
  }
}

std::optional<engine::DeviceId> ForkTree::name_of(std::int64_t seq, const Hash& hash) const {
  const auto at = find(seq, hash);
  if (!at || names_[*at] == kWaits) return std::nullopt;
  return ids_[names_[*at]];
}

SeqRangesByDevice missing_in(const KnownEvents& held, const ForkTrees& trees) {
  SeqRangesByDevice missing;
  for (const auto& [device, mine] : held) {
    if (trees.contains(device)) continue;
    SeqRanges all;
    all.add({1, mine.seqs.top()});
    if (SeqRanges gaps = all.without(mine.seqs); !gaps.empty()) missing[device] = std::move(gaps);
  }
  for (const auto& [device, tree] : trees)
    if (tree.waiting() > 0) missing[device] = tree.missing();
  return missing;
}

}  // namespace storage
