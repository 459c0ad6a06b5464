// storage/journal/fork_tree.h -- which of one tablet's events hang on which.
//
// Each event names the one before it by hash. As long as a tablet's store is one, that makes a
// line; where copies of it were both written on, a tree. From an event that several follow, each
// of them begins a branch (engine/events/branches.h). What does not hang on the tablet's first
// event waits for what is missing between.
//
// Pure. The same events give the same tree, in whatever order they came.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/events/branches.h"
#include "storage/journal/chain_link.h"
#include "storage/journal/known_events.h"

namespace storage {

class ForkTree {
 public:
  ForkTree(const std::string& device, std::vector<ChainLink> links);

  // What the farm calls the tablet in this event: its id, or that of a branch. None: it waits, or
  // is not one of the tree's.
  [[nodiscard]] std::optional<engine::DeviceId> name_of(std::int64_t seq, const Hash& hash) const;
  [[nodiscard]] const engine::Branches& branches() const { return branches_; }

  // How many wait, and the numbers that are surely missing before them.
  [[nodiscard]] std::int64_t waiting() const { return waiting_; }
  [[nodiscard]] const SeqRanges& missing() const { return missing_; }

 private:
  [[nodiscard]] std::optional<std::size_t> find(std::int64_t seq, const Hash& hash) const;
  [[nodiscard]] std::optional<std::size_t> before(std::size_t at) const;
  [[nodiscard]] std::vector<std::size_t> count_followers();
  void name_all(const std::string& device, const std::vector<std::size_t>& followers);

  std::vector<ChainLink> links_;      // rising, each once
  std::vector<std::uint32_t> names_;  // by place; places in ids_
  std::vector<engine::DeviceId> ids_;
  engine::Branches branches_;
  std::int64_t waiting_ = 0;
  SeqRanges missing_;
};

using ForkTrees = std::map<std::string, ForkTree>;  // by device

// Of all of them.
[[nodiscard]] engine::Branches branches_in(const ForkTrees& trees);

// Per device the numbers that are surely missing before what waits. `trees`: Journal::forks().
[[nodiscard]] SeqRangesByDevice missing_in(const KnownEvents& held, const ForkTrees& trees);

// A UUID of version 8 (RFC 9562, 5.8: of a meaning of one's own) that follows from an id and the
// hash of an event.
[[nodiscard]] engine::DeviceId derived_id(const std::string& device, const Hash& hash);

}  // namespace storage
