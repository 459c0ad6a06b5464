// storage/store/store.h -- the journal and the farm that its events make, always in step.
//
// open replays the journal (storage/store/replay.h): no entry that is in it can lock the store.
// append folds an event into a copy of the farm, returns Ok only after the event is durable, and
// only then the farm has changed. The farm holds what a later replay will read, to the bit. A large
// store opens by a checkpoint beside it (storage/store/checkpoint.h) and replays only what came
// later; verify() does without it. No clock: stamps come with the events.
#pragma once
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/farm/merge_order.h"
#include "storage/disk/progress.h"
#include "storage/journal/journal.h"
#include "storage/store/counting.h"
#include "storage/store/guarded_fold.h"

namespace storage {

struct Checkpoint;

struct Merged {
  std::int64_t added = 0;
  std::int64_t known = 0;
  std::vector<std::string> lines;  // for the keeper: what was left out and why, forks, gaps
  std::size_t gaps = 0;            // so many of them, the last ones, are of gaps open now
  std::vector<HeldTablet> held;    // kept, and held back until people decide
};

class Store {
 public:
  // A new store makes its folders when options.create is set. A journal with damaged bytes, one of
  // a later version, and one in which a later version wrote under this tablet's own id open
  // read-only with all that can be read: damage() says why, and mend() (storage/store/repair.h)
  // goes on. An entry that does not fit locks nothing: it falls and is a contradiction.
  [[nodiscard]] static engine::Result<Store> open(const std::string& path, JournalOptions options);

  // A copy that the program which has the store open handed out (storage/journal/look_server.h):
  // everything can be asked, and append is refused with Busy.
  [[nodiscard]] static engine::Result<Store> look(const std::string& path, std::string bytes,
                                                  JournalOptions options);

  [[nodiscard]] const engine::Farm& farm() const { return farm_; }
  [[nodiscard]] engine::DeviceId device() const;

  // The event that may be appended next on this device, and a run of them.
  [[nodiscard]] engine::Event next(engine::Stamp stamp, engine::Body body) const;
  [[nodiscard]] std::vector<engine::Event> next_all(const engine::Stamp& stamp,
                                                    std::vector<engine::Body> bodies) const;

  // An impossible event is BadInput and nothing is written. Where entries of other
  // tablets were read since the last one, a ClockFollowed is written with it that says so, and the
  // event gets the number after.
  engine::Status append(const engine::Event& event);
  engine::Status append_all(std::span<const engine::Event> events,
                            const Progress& progress = {});  // all or none

  // Takes in what other tablets wrote (and what this one wrote, given back): the union, durable at
  // once. What cannot be taken is named, the rest is taken. Entries behind a gap are kept in the
  // journal and held back from the farm until the gap closes, so that bundles may come in any
  // order. Both sides of a fork are kept and count (engine/events/branches.h). Where a copy of this
  // very store was written on, or an older copy put back, entries come under this tablet's id that
  // this store did not write: it goes on under a new one. Busy while a walk is under way here:
  // that walk would be left to the old one.
  // What does not count here is kept and held back (storage/TRUST.md). `signatures` that came with
  // them are kept where they hold.
  [[nodiscard]] engine::Result<Merged> merge(std::vector<Sealed> events,
                                             const Progress& progress = {},
                                             const std::vector<Signature>& signatures = {});

  // ---- whose entries count (storage/TRUST.md) ----

  [[nodiscard]] const Counting& counting() const { return counting_; }
  // Makes this tablet's key where it has none, and says it where its chain does not.
  [[nodiscard]] engine::Result<TabletKey> make_key(const engine::Stamp& now);
  // Of the last entry of each tablet among these: this tablet's own by its key, if it has one; of
  // others what came with theirs.
  [[nodiscard]] std::vector<Signature> signatures_for(std::span<const Sealed> events) const;
  // What the entries of a tablet that are held back would do, a line each
  // (storage/trust/would_do.h).
  [[nodiscard]] std::vector<std::string> would_do(const HeldTablet& held) const;
  // Pairs with a tablet: its whole key (64 hex digits) or that of its eight words (20). The first
  // time the tablets are named whose entries are here: they go on counting.
  [[nodiscard]] engine::TabletTrusted trust_in(std::string key) const;

  // Tablets whose clocks are wrong.
  [[nodiscard]] const std::vector<engine::WrongClock>& wrong_clocks() const {
    return clocks_.wrong();
  }

  // For the keeper; empty when the store is whole. While it is not, append is refused.
  [[nodiscard]] const std::string& damage() const { return damage_; }
  // For the keeper: which entries are kept but not in the farm; mostly empty.
  [[nodiscard]] std::string unshown() const { return unshown_line(unshown_); }
  // Ok, or what append would refuse with (damaged, of a later version, write-protected).
  [[nodiscard]] engine::Status writable() const;

  // Journal::verify, and all of it replayed without the checkpoint: is that what farm() shows?
  [[nodiscard]] VerifyReport verify() const;

  [[nodiscard]] const Journal& journal() const { return journal_; }
  [[nodiscard]] Journal& journal() { return journal_; }

 private:
  explicit Store(Journal journal);
  struct Merging;
  struct Part;
  engine::Status replay_all();
  bool begin_with(Checkpoint kept);
  engine::Status replay_later();
  engine::Status read_unbroken(std::int64_t from,
                               const std::function<engine::Status(const Record&)>& take) const;
  engine::Status merge_part(Part& part, Merging& merging);
  engine::Status merge_parts(std::vector<Sealed> events, Merging& merging,
                             const Progress& progress);
  engine::Status fold_merged(const Merging& merging);
  engine::Status say_forks_and_gaps(const Merging& merging, Merged& done) const;
  engine::Status take_in(std::vector<engine::Event> fresh);
  void show_here();
  void keep_checkpoint();
  [[nodiscard]] std::string why_locked() const;
  [[nodiscard]] std::vector<engine::Event> numbered(std::span<const engine::Event> events) const;

  engine::Status count_anew();
  engine::Status keep_signatures(const std::vector<Signature>& signatures);

  Journal journal_;
  Counting counting_;
  GuardedFold fold_;
  engine::Farm farm_;
  engine::Clocks clocks_;
  std::vector<Unshown> unshown_;
  std::string damage_;
  std::int64_t checkpoint_at_ = 0;  // how many events the checkpoint beside the store holds
};

// "Held back: tablet 3f9a1c20 (not paired), 15 entries from 4 on: strikes 14 treatments of ..."
[[nodiscard]] std::string held_line(const Store& store, const HeldTablet& held);

}  // namespace storage
