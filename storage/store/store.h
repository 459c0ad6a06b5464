// storage/store/store.h -- the journal and the farm that its events make, always in step.
//
// open replays the journal: the events of one tablet in their order, each asked for with why_not;
// those of several in their common order (engine/farm/merge_order.h). append returns Ok only after
// the event is durable, and only then the farm has changed. The farm holds what a later replay will
// read, to the bit. A large store opens by a checkpoint beside it (storage/store/checkpoint.h) and
// replays only what came later. No clock: stamps come with the events.
#pragma once
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/farm/merge_order.h"
#include "storage/disk/progress.h"
#include "storage/journal/journal.h"

namespace storage {

struct Merged {
  std::int64_t added = 0;
  std::int64_t known = 0;
  std::vector<std::string> lines;  // for the keeper: what was left out and why, gaps, forks
};

class Store {
 public:
  // A new store makes its folders when options.create is set. A journal with damaged bytes opens
  // read-only with the events before the first hole; one whose bytes are whole but which holds an
  // impossible event, read-only with every event that fits: a later, stricter version must not
  // lock the keeper out. damage() then names device, number, kind and why. One of a later version
  // is TooNew.
  [[nodiscard]] static engine::Result<Store> open(const std::string& path, JournalOptions options);

  [[nodiscard]] const engine::Farm& farm() const { return farm_; }
  [[nodiscard]] engine::DeviceId device() const;

  // The event that may be appended next on this device, and a run of them.
  [[nodiscard]] engine::Event next(engine::Stamp stamp, engine::Body body) const;
  [[nodiscard]] std::vector<engine::Event> next_all(const engine::Stamp& stamp,
                                                    std::vector<engine::Body> bodies) const;

  // An impossible event is BadInput and nothing is written. Where other tablets' clocks are ahead,
  // a ClockFollowed is written with it and the event gets the number after.
  engine::Status append(const engine::Event& event);
  engine::Status append_all(std::span<const engine::Event> events);  // all or none

  // Takes in what other tablets wrote (and what this one wrote, given back): the union, durable at
  // once. What cannot be taken is named, the rest is taken. Entries behind a gap are kept in the
  // journal and held back from the farm until the gap closes, so that bundles may come in any
  // order. Both sides of a fork are kept and count (engine/events/branches.h). Where a copy of this
  // very store was written on, it goes on under a new id; Busy while a walk is under way here:
  // that walk would be left to the old one.
  [[nodiscard]] engine::Result<Merged> merge(std::vector<Sealed> events,
                                             const Progress& progress = {});

  // For the keeper; empty when the store is whole. While it is not, append is refused.
  [[nodiscard]] const std::string& damage() const { return damage_; }
  // Ok, or what append would refuse with (damaged, impossible, write-protected).
  [[nodiscard]] engine::Status writable() const;

  [[nodiscard]] const Journal& journal() const { return journal_; }
  [[nodiscard]] Journal& journal() { return journal_; }

 private:
  explicit Store(Journal journal) : journal_(std::move(journal)) {}
  struct Merging;
  struct Part;
  engine::Status replay();
  engine::Status replay_one_by_one();
  engine::Status replay_together();
  engine::Status replay_later();
  engine::Status read_unbroken(std::int64_t from,
                               const std::function<engine::Status(const Record&)>& take) const;
  void leave_out_impossible(std::vector<Sealed>& events, Merging& merging) const;
  engine::Status merge_part(Part& part, Merging& merging);
  engine::Status merge_parts(std::vector<Sealed> events, Merging& merging,
                             const Progress& progress);
  engine::Status fold_merged(const Merging& merging);
  engine::Status say_forks_and_gaps(const Merging& merging, std::vector<std::string>& lines) const;
  void take_in(std::vector<engine::Event> fresh);
  void read_clocks();
  void keep_checkpoint();
  [[nodiscard]] std::vector<engine::Event> numbered(std::span<const engine::Event> events) const;
  engine::Status fold(const Record& record);
  void leave_out(const Record& record);

  Journal journal_;
  engine::Farm farm_;
  engine::Clocks clocks_;
  std::string damage_;
  std::int64_t checkpoint_at_ = 0;  // how many events the checkpoint beside the store holds
};

// Why an event cannot be taken, in one line.
[[nodiscard]] std::string refusal_line(const engine::Event& event, engine::Refusal why);

// Folds one device's next event when it fits; otherwise says why and leaves the farm alone.
[[nodiscard]] engine::Status fold_into(engine::Farm& farm, const engine::Event& event);

}  // namespace storage
