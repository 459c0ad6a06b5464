// storage/store/counting.h -- which entries of a journal count, by what it says of keys and
// decisions (storage/trust/trust_rules.h). Inside storage/ only.
#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "storage/journal/journal.h"
#include "storage/trust/trust_rules.h"

namespace storage {

// Entries of one tablet that are kept and do not count.
struct HeldTablet {
  std::string tablet;
  std::int64_t from = 0;     // the first of them
  std::int64_t entries = 0;  // behind gaps too
  std::int64_t last = 0;
  HeldWhy why = HeldWhy::Nothing;
  std::optional<PublicKey> key;  // the last that its chain says, whoever wrote that

  // The eight digits by which people know it (engine::short_device).
  [[nodiscard]] std::string shown() const;
};

class Counting {
 public:
  Counting() = default;  // everything counts
  // Failed: the journal cannot be read just now.
  [[nodiscard]] static Result<Counting> of(const Journal& journal);

  [[nodiscard]] bool counts(const std::string& device, std::int64_t seq, const Hash& hash) const;
  // The last that counts, of a tablet without forks.
  [[nodiscard]] std::int64_t through(const std::string& device) const;
  // Whether all counts that the journal had when these were all it held.
  [[nodiscard]] bool all_count(const KnownEvents& held) const;
  // Whether what was held back here counts by `later`, or the other way round.
  [[nodiscard]] bool other_than(const Counting& later) const { return bounds_ != later.bounds_; }

  [[nodiscard]] const std::vector<HeldTablet>& held_back() const { return held_back_; }
  [[nodiscard]] bool closed() const { return closed_; }
  // The keys that chains say, by tablet; this one's too.
  [[nodiscard]] const std::map<std::string, TabletFacts>& facts() const { return facts_; }
  [[nodiscard]] const Decisions& decisions() const { return decisions_; }
  // Entries that count although nobody signed them, of tablets other than this.
  [[nodiscard]] std::int64_t unsigned_entries() const { return unsigned_; }

 private:
  struct ForkedBound {
    std::set<Hash> proven;
    friend bool operator==(const ForkedBound&, const ForkedBound&) = default;
  };
  Status read(const Journal& journal);
  Status read_decisions(const Journal& journal);
  void decide(const Record& record);
  void note_signatures(const Journal& journal);
  Status bound(const Journal& journal);
  Status prove_sides(const Journal& journal, const std::string& device, const Bound& bound);
  void list_held(const Journal& journal);

  std::map<std::string, TabletFacts> facts_;
  Decisions decisions_;
  bool closed_ = false;
  std::map<std::string, Bound> bounds_;        // of those of whom not all counts
  std::map<std::string, ForkedBound> forked_;  // of these, where there are forks
  std::vector<HeldTablet> held_back_;
  std::int64_t unsigned_ = 0;
};

// Of these signatures those worth keeping with the journal, as rows of it: they hold, their entry
// is here, and its chain says their key.
[[nodiscard]] std::vector<KeptRow> rows_to_keep(const Journal& journal, const Counting& counting,
                                                const std::vector<Signature>& signatures);
[[nodiscard]] std::vector<Signature> kept_signatures(const Journal& journal);

}  // namespace storage
