#include "storage/trust/trust_rules.h"

#include <algorithm>

namespace storage {

void Decisions::take_in(const std::string& tablet, std::int64_t through) {
  std::int64_t& most = taken_in_[tablet];
  most = std::max(most, through);
  limits_.erase(tablet);
}

void Decisions::refuse(const std::string& tablet, std::int64_t from) {
  const auto [limit, first] = limits_.emplace(tablet, from - 1);
  if (!first) limit->second = std::min(limit->second, from - 1);
}

void Decisions::trust_key(const PublicKey& key) {
  keys_.insert(key);
  refused_keys_.erase(key);
  closed_ = true;
}

bool Decisions::trusts(const PublicKey& key, const std::string& tablet) const {
  if (refused_keys_.contains(key) && !limits_.contains(tablet)) return false;
  return keys_.contains(key) || (!words_.empty() && words_.contains(fingerprint(key)));
}

std::int64_t Decisions::taken_in(const std::string& tablet) const {
  const auto at = taken_in_.find(tablet);
  return at == taken_in_.end() ? 0 : at->second;
}

std::int64_t Decisions::limit(const std::string& tablet) const {
  const auto at = limits_.find(tablet);
  return at == limits_.end() ? kAllEntries : at->second;
}

std::int64_t Bound::through() const {
  std::int64_t most = without_proof;
  for (const Proof& proof : proofs) most = std::max(most, proof.seq);
  return std::min(limit, most);
}

namespace {

// A signature counts with a key that the tablet's own chain had said by then, so that nobody signs
// for a tablet that never named that key.
bool said_before(const TabletFacts& facts, const SignedUpTo& s) {
  return std::any_of(facts.keys.begin(), facts.keys.end(), [&](const SaidKey& said) {
    return said.key == s.key && said.seq <= s.proof.seq;
  });
}

}  // namespace

Bound bound_of(const std::string& tablet, const TabletFacts& facts, const Decisions& decisions) {
  Bound bound;
  bound.limit = decisions.limit(tablet);
  if (bound.limit != kAllEntries) bound.why = HeldWhy::Refused;
  if (!decisions.closed()) return bound;
  const bool known = decisions.knows(tablet);
  bound.without_proof = decisions.taken_in(tablet);
  if (known && facts.keys.empty()) bound.without_proof = kAllEntries;
  if (known && !facts.keys.empty())
    bound.without_proof = std::max(bound.without_proof, facts.keys.front().seq - 1);
  bool paired = known;
  // The first key that a known tablet said is taken for its own, as it was known before.
  for (const SaidKey& said : facts.keys) paired = paired || decisions.trusts(said.key, tablet);
  for (const SignedUpTo& s : facts.signatures) {
    if (!said_before(facts, s)) continue;
    const bool own = known && s.key == facts.keys.front().key;
    if (own || decisions.trusts(s.key, tablet)) bound.proofs.push_back(s.proof);
  }
  if (facts.written_here) bound.proofs.push_back(*facts.written_here);
  if (bound.why == HeldWhy::Nothing && bound.without_proof != kAllEntries)
    bound.why = paired ? HeldWhy::NotSigned : HeldWhy::NotPaired;
  return bound;
}

const char* words(HeldWhy why) {
  switch (why) {
    case HeldWhy::Nothing:
      return "counts";
    case HeldWhy::NotPaired:
      return "not paired";
    case HeldWhy::NotSigned:
      return "not signed";
    case HeldWhy::Refused:
      return "kept out";
  }
  return "?";
}

}  // namespace storage
