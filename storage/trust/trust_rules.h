// storage/trust/trust_rules.h -- up to where each tablet's entries count on this one. Pure: what is
// known goes in, what follows comes out. storage/TRUST.md says it for people.
//
// An outfit that never paired takes in everything, as it did before there were keys: nobody is
// locked out by an update. From the first decision on (somebody was paired, or the door was closed)
//   * a tablet whose entries were here by then is known and goes on counting;
//   * a tablet counts whose key was paired, as far as a signature with that key reaches;
//   * a tablet that is known counts without signatures until it says a key; from that entry on it
//     counts as far as signatures with it reach;
//   * of a tablet that was taken in by hand everything counts up to the number that was looked at;
//   * everything else is kept and held back.
// Whatever was refused, from a number on, does not count, whoever signed it.
#pragma once
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "storage/trust/pairing.h"
#include "storage/trust/signature.h"

namespace storage {

inline constexpr std::int64_t kAllEntries = std::numeric_limits<std::int64_t>::max();

// What people decided on this tablet, in the order in which they did.
class Decisions {
 public:
  void trust_key(const PublicKey& key);
  void trust_words(const Fingerprint& words) { words_.insert(words), closed_ = true; }
  // Known without a key: of a tablet that was here when the door was closed all counts.
  void trust_known(const std::string& tablet) { known_.insert(tablet), closed_ = true; }
  void close() { closed_ = true; }
  // What was looked at; a refusal of the same tablet ends with it.
  void take_in(const std::string& tablet, std::int64_t through);
  void refuse(const std::string& tablet, std::int64_t from);
  // A stolen tablet's: it makes no further tablet count, but still proves what was not refused.
  void refuse_key(const PublicKey& key) { refused_keys_.insert(key); }

  [[nodiscard]] bool closed() const { return closed_; }
  // For that tablet; a refused key does so only for those that a refusal names.
  [[nodiscard]] bool trusts(const PublicKey& key, const std::string& tablet) const;
  [[nodiscard]] bool knows(const std::string& tablet) const { return known_.contains(tablet); }
  [[nodiscard]] std::int64_t taken_in(const std::string& tablet) const;
  [[nodiscard]] std::int64_t limit(const std::string& tablet) const;  // refused after it

 private:
  bool closed_ = false;
  std::set<PublicKey> keys_, refused_keys_;
  std::set<Fingerprint> words_;
  std::set<std::string> known_;
  std::map<std::string, std::int64_t> taken_in_, limits_;
};

// What the store knows of another tablet.
struct SaidKey {
  std::int64_t seq = 0;  // of the entry that says it
  PublicKey key{};
};
struct Proof {
  std::int64_t seq = 0;
  Hash hash{};  // of that entry: it and all before it in its chain are proven
};
struct SignedUpTo {
  Proof proof;
  PublicKey key{};
};
struct TabletFacts {
  std::vector<SaidKey> keys;           // rising
  std::vector<SignedUpTo> signatures;  // that hold, of entries that are here
  std::optional<Proof> written_here;   // by this very store, under an id that it had before
};

enum class HeldWhy { Nothing, NotPaired, NotSigned, Refused };

struct Bound {
  std::int64_t limit = kAllEntries;          // nothing after it counts
  std::int64_t without_proof = kAllEntries;  // up to there, whoever brought it
  std::vector<Proof> proofs;                 // beyond that, what these prove
  HeldWhy why = HeldWhy::Nothing;            // the reason for what does not count

  // Of a tablet that has no forks.
  [[nodiscard]] std::int64_t through() const;
  friend bool operator==(const Bound& a, const Bound& b) { return a.through() == b.through(); }
};

// `tablet` is another one than this.
[[nodiscard]] Bound bound_of(const std::string& tablet, const TabletFacts& facts,
                             const Decisions& decisions);

// "not paired" and so on, for lines.
[[nodiscard]] const char* words(HeldWhy why);

}  // namespace storage
