// storage/journal/journal.h -- the one store of everything that happened: append-only, durable,
// chained.
//
// Promises:
//   * append returns Ok only after the event would survive a power cut (SQLite, WAL,
//     synchronous=FULL, one connection; why: storage/JOURNAL.md);
//   * nothing stored is ever changed, replaced or deleted;
//   * a damaged store is never written: it opens for reading, and damage() says which events can
//     be read and which cannot;
//   * one program at a time: a second one gets Code::Busy.
// Used from one thread at a time. No clock, no randomness: times and ids come with the records.
#pragma once
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "storage/journal/fork_tree.h"
#include "storage/journal/kept_row.h"
#include "storage/journal/known_events.h"
#include "storage/journal/progress_mark.h"
#include "storage/journal/record.h"
#include "storage/journal/verified_events.h"

namespace storage {

struct JournalTesting;  // storage/journal/journal_testing.h: weaker settings, for tests only

// What was read and found whole before (storage/store/checkpoint.h). It counts only when `seal` is
// made of `sum` with the secret that the store holds: else anybody may have written it.
struct Proven {
  ProgressMark tip;
  std::string sum, seal;  // storage/disk/summed_file.h
};

struct JournalOptions {
  // A fresh id, for a store that is made or must go on under a new one; UUID text.
  std::string device;
  bool create = true;                                   // false: NotFound when there is no store
  std::string vfs;                                      // SQLite VFS by name; "" is the default
  std::int64_t ballast_bytes = std::int64_t{16} << 20;  // room kept free for a full disk; 0: none
  const JournalTesting* testing = nullptr;
  // Of those events only a part is read again at opening, another part each time; none: all are.
  std::optional<Proven> proven{};
  // A store with at least so many events gets a checkpoint beside it; 0: never.
  std::int64_t checkpoint_from = 20'000;
};

struct DamageReport {
  std::string line;                                    // for the keeper
  std::vector<std::string> causes;                     // what the checks found
  SeqRangesByDevice readable;                          // per device
  SeqRangesByDevice missing;                           // stored once, not readable now
  std::int64_t sides_readable = 0, sides_missing = 0;  // of other sides of forks, beside these
};

struct VerifyReport {
  std::int64_t events = 0;
  std::vector<std::string> problems;  // empty: the store is whole
  SeqRangesByDevice waiting;          // gaps in other devices' events: bundles not merged yet
  std::int64_t sides = 0;             // events of other sides of forks, beside `events`
  bool shown_otherwise = false;       // of problems: what is shown does not follow from the entries

  [[nodiscard]] bool ok() const { return problems.empty(); }
};

// An event of another side of a fork: what is here has its number, or does not hang on it. (The
// store was copied, and both copies were written on.)
struct Fork {
  std::string device;
  std::int64_t seq = 0;
};

// So many runs of missing numbers, and so many branches of copies, a journal takes in, of one
// tablet and of all: each makes every later opening slower, and honest tablets have a few. What
// would make one more is left out until others close; entries from the first number on always come
// in.
inline constexpr std::int64_t kMostGapsOfOne = 2000, kMostGaps = 10'000;
inline constexpr std::int64_t kMostBranchesOfOne = 50, kMostBranches = 200;

struct Adopted {
  std::int64_t added = 0;
  std::int64_t known = 0;          // already here, the same
  std::vector<std::size_t> taken;  // places in what was given, rising; without `forks`
  std::vector<Fork> forks;         // kept as another side, and added too
  bool renewed = false;            // own ones among `added`: device() is another one now
  std::map<std::string, std::int64_t> over_bounds{};  // by tablet: left out, see kMostGaps
};

class Journal {
 public:
  [[nodiscard]] static Result<Journal> open(const std::string& path, JournalOptions options);
  // A store for reading only, from `bytes` that the program which has `path` open handed out
  // (storage/journal/look_server.h). Held in memory; append is refused with Busy.
  [[nodiscard]] static Result<Journal> look(const std::string& path, std::string bytes,
                                            JournalOptions options);
  ~Journal();
  Journal(Journal&&) noexcept;
  Journal& operator=(Journal&&) noexcept;

  // The record's device must be device() and its seq last(device()).seq + 1.
  Status append(const Record& record);
  Status append_all(std::span<const Record> records);  // all or none

  // Takes events of other devices (or of this one, given back): the union, in one transaction.
  // Where two stand under one number both are kept. An own event that is not here was written by a
  // copy of this store, by this store before an older copy was put back, or by somebody else: this
  // one goes on under a new id, which follows from options.device and what it holds.
  Status adopt(const Sealed& event);
  [[nodiscard]] Result<Adopted> adopt_all(VerifiedEvents events);
  [[nodiscard]] Result<Adopted> adopt_all(std::vector<Sealed> events);  // when all are whole
  // Whether taking them would renew the id.
  [[nodiscard]] bool would_renew(std::span<const Sealed> events) const;

  // Every event in the order in which this store took them; or of the table events those after the
  // first so many.
  Status replay(const std::function<void(const Sealed&)>& take) const;
  Status replay_after(std::int64_t arrivals, const std::function<void(const Sealed&)>& take) const;
  // Those of one tablet from that number on, rising; then those of its sides.
  Status replay_of(const std::string& device, std::int64_t from,
                   const std::function<void(const Sealed&)>& take) const;
  // Those whose kind begins like that, in no order: of the table events after the first so many (of
  // a damaged store: all), and of the sides.
  Status replay_kinds(const std::string& begin, std::int64_t after,
                      const std::function<void(const Sealed&)>& take) const;

  [[nodiscard]] const std::string& device() const;
  [[nodiscard]] Head last(const std::string& device) const;  // seq 0 and zero hash: none
  [[nodiscard]] const KnownEvents& held() const;             // but for sides()
  [[nodiscard]] std::int64_t size() const;                   // likewise

  // The events of other sides of forks, and for each tablet that has any, how all of its hang
  // together.
  [[nodiscard]] const std::vector<ForkRow>& sides() const;
  [[nodiscard]] Result<ForkTrees> forks() const;
  // How all that one tablet wrote hangs together, in no order.
  [[nodiscard]] Result<std::vector<ChainLink>> links_of(const std::string& device) const;
  // Of the table events; nullopt: there is none of that number.
  [[nodiscard]] std::optional<Sealed> entry_at(const std::string& device, std::int64_t seq) const;
  [[nodiscard]] std::optional<Hash> hash_at(const std::string& device, std::int64_t seq) const;

  // What only this store and its copies made by hand hold; empty: there is none yet. Bytes.
  [[nodiscard]] const std::string& secret() const;
  // Makes one where there is none: random, and no part of any event or backup.
  Status make_secret();

  // What other rooms keep beside the events, in backups too (storage/trust/signature.h): rows of
  // meta, whose keys begin with a word of theirs and a blank. One of the same key is replaced.
  Status keep_rows(std::span<const KeptRow> rows);
  [[nodiscard]] std::vector<KeptRow> kept_rows(const std::string& word) const;

  // The ids under which this store wrote before it got another one, and its last entry under each.
  struct WrittenHere {
    std::string device;
    Head last;
  };
  [[nodiscard]] std::vector<WrittenHere> written_here() const;

  // From now on events get this id: needed after a restore.
  Status renew_device(const std::string& device);

  [[nodiscard]] VerifyReport verify() const;
  // How many of the first events were taken on options.proven's word; 0: all were read at opening.
  [[nodiscard]] std::int64_t proven_before() const;
  [[nodiscard]] const std::string& path() const;
  [[nodiscard]] const JournalOptions& options() const;

  // One complete file at `path`, which must not exist yet. On a damaged store: refused. In steps:
  // storage/journal/backup.h.
  Status backup_to(const std::string& path) const;

  [[nodiscard]] const std::optional<DamageReport>& damage() const;
  // Ok, or the line that append would refuse with (damaged, write-protected).
  [[nodiscard]] const Status& writable() const;
  // The disk was full and the ballast has been given up: end the walk soon, free some space.
  [[nodiscard]] bool ballast_spent() const;
  // Tries to set the ballast aside again; false while there is no room.
  bool restore_ballast();

 private:
  friend class Backup;
  friend class Snapshot;
  struct Impl;
  explicit Journal(std::unique_ptr<Impl> impl);
  [[nodiscard]] std::string unused_id() const;
  std::unique_ptr<Impl> impl_;
};

// Makes a new store at `path` from all that `from` can still read. options.device must be new.
[[nodiscard]] Result<Journal> rescue(const Journal& from, const std::string& path,
                                     JournalOptions options);

}  // namespace storage
