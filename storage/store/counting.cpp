#include "storage/store/counting.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "storage/journal/journal_check.h"
#include "storage/store/event_json.h"
#include "storage/store/key_entries.h"

namespace storage {
namespace {

struct HashOfHash {
  std::size_t operator()(const Hash& hash) const {
    std::size_t first = 0;
    for (std::size_t i = 0; i < sizeof first; ++i) first = first << 8 | hash[i];
    return first;
  }
};
using PrevOf = std::unordered_map<Hash, Hash, HashOfHash>;

std::set<std::string> tablets_with_forks(const Journal& journal) {
  std::set<std::string> devices;
  for (const ForkRow& side : journal.sides()) devices.insert(side.sealed.record.device);
  return devices;
}

bool has_entry(const Journal& journal, const SignedEntry& entry) {
  if (journal.hash_at(entry.device, entry.seq) == entry.hash) return true;
  const auto& sides = journal.sides();
  return std::any_of(sides.begin(), sides.end(),
                     [&](const ForkRow& side) { return side.sealed.hash == entry.hash; });
}

bool says_key(const TabletFacts& facts, const PublicKey& key) {
  return std::any_of(facts.keys.begin(), facts.keys.end(),
                     [&](const SaidKey& said) { return said.key == key; });
}

std::int64_t count_up_to(const SeqRanges& seqs, std::int64_t last) {
  std::int64_t all = 0;
  for (const SeqRange& range : seqs.ranges())
    if (range.first <= last) all += std::min(range.last, last) - range.first + 1;
  return all;
}

// The first of them after `last`; 0: there is none.
std::int64_t first_after(const SeqRanges& seqs, std::int64_t last) {
  for (const SeqRange& range : seqs.ranges())
    if (range.last > last) return std::max(range.first, last + 1);
  return 0;
}

void walk_back(const PrevOf& prev, Hash hash, std::set<Hash>& proven) {
  for (auto at = prev.find(hash); at != prev.end() && proven.insert(hash).second;
       at = prev.find(hash))
    hash = at->second;
}

}  // namespace

std::string HeldTablet::shown() const { return short_name(tablet); }

Result<Counting> Counting::of(const Journal& journal) {
  Counting counting;
  if (Status read = counting.read(journal); !read.ok()) return read;
  return counting;
}

Status Counting::read(const Journal& journal) {
  const auto& held = journal.held();
  const bool alone = held.empty() || (held.size() == 1 && held.contains(journal.device()));
  if (Status decided = read_decisions(journal); !decided.ok()) return decided;
  closed_ = decisions_.closed();
  if (alone) return {};
  for (auto& was : journal.written_here())
    facts_[was.device].written_here = Proof{was.last.seq, was.last.hash};
  note_signatures(journal);
  if (Status bounded = bound(journal); !bounded.ok()) return bounded;
  list_held(journal);
  return {};
}

// Decisions are those of this store: under its id, and under former ones up to what it wrote then.
Status Counting::read_decisions(const Journal& journal) {
  std::map<std::string, std::int64_t> here = {{journal.device(), kAllEntries}};
  for (const auto& was : journal.written_here())
    if (journal.hash_at(was.device, was.last.seq) == was.last.hash) here[was.device] = was.last.seq;
  std::vector<Record> decided;
  const Status read = each_key_entry(journal, [&](const Sealed& s) {
    const auto event = to_event(s.record);
    if (!event.ok()) return;
    if (const auto* keyed = std::get_if<engine::TabletKeyed>(&event.value().body)) {
      SaidKey said{s.record.seq, {}};
      if (from_hex(keyed->key, said.key)) facts_[s.record.device].keys.push_back(said);
      return;
    }
    const auto mine = here.find(s.record.device);
    const bool of_table = journal.hash_at(s.record.device, s.record.seq) == s.hash;
    if (mine != here.end() && s.record.seq <= mine->second && of_table) decided.push_back(s.record);
  });
  for (auto& [device, facts] : facts_)
    std::sort(facts.keys.begin(), facts.keys.end(),
              [](const SaidKey& a, const SaidKey& b) { return a.seq < b.seq; });
  for (const Record& record : decided) decide(record);
  return read;
}

void Counting::decide(const Record& record) {
  const auto event = to_event(record);
  if (!event.ok()) return;
  if (const auto* refused = std::get_if<engine::TabletRefused>(&event.value().body)) {
    PublicKey key{};
    decisions_.refuse(refused->tablet, refused->from);
    if (refused->key && from_hex(*refused->key, key)) decisions_.refuse_key(key);
  }
  const auto* trusted = std::get_if<engine::TabletTrusted>(&event.value().body);
  if (trusted == nullptr) return;
  if (trusted->key || trusted->known) decisions_.close();
  if (trusted->tablet && trusted->through) decisions_.take_in(*trusted->tablet, *trusted->through);
  if (trusted->known)
    for (const std::string& known : *trusted->known) decisions_.trust_known(known);
  if (!trusted->key) return;
  PublicKey key{};
  if (from_hex(*trusted->key, key)) decisions_.trust_key(key);
  if (const auto print = fingerprint_from_text(*trusted->key)) decisions_.trust_words(*print);
}

void Counting::note_signatures(const Journal& journal) {
  for (const Signature& s : kept_signatures(journal))
    if (has_entry(journal, s.entry))
      facts_[s.entry.device].signatures.push_back({{s.entry.seq, s.entry.hash}, s.key});
}

Status Counting::bound(const Journal& journal) {
  const auto forks = tablets_with_forks(journal);
  std::set<std::string> devices = forks;
  for (const auto& [device, mine] : journal.held()) devices.insert(device);
  devices.erase(journal.device());
  for (const std::string& device : devices) {
    const Bound bound = bound_of(device, facts_[device], decisions_);
    if (bound.limit == kAllEntries && bound.without_proof == kAllEntries) continue;
    if (forks.contains(device))
      if (Status proven = prove_sides(journal, device, bound); !proven.ok()) return proven;
    bounds_.emplace(device, bound);
  }
  return {};
}

// Under one number several entries stand: only those count that the proofs' chains hold.
Status Counting::prove_sides(const Journal& journal, const std::string& device,
                             const Bound& bound) {
  const auto links = journal.links_of(device);
  if (!links.ok()) return links.status();
  PrevOf prev;
  for (const ChainLink& link : links.value()) prev.emplace(link.hash, link.prev);
  auto& proven = forked_[device].proven;
  for (const Proof& proof : bound.proofs) walk_back(prev, proof.hash, proven);
  return {};
}

bool Counting::counts(const std::string& device, std::int64_t seq, const Hash& hash) const {
  const auto bound = bounds_.find(device);
  if (bound == bounds_.end()) return true;
  const auto forked = forked_.find(device);
  if (forked == forked_.end()) return seq <= bound->second.through();
  return seq <= bound->second.limit &&
         (seq <= bound->second.without_proof || forked->second.proven.contains(hash));
}

std::int64_t Counting::through(const std::string& device) const {
  const auto bound = bounds_.find(device);
  return bound == bounds_.end() ? kAllEntries : bound->second.through();
}

bool Counting::all_count(const KnownEvents& held) const {
  return std::all_of(held.begin(), held.end(), [&](const auto& device) {
    return !forked_.contains(device.first) && device.second.seqs.top() <= through(device.first);
  });
}

void Counting::list_held(const Journal& journal) {
  for (const auto& [device, mine] : journal.held()) {
    if (device == journal.device()) continue;
    const TabletFacts& facts = facts_[device];
    std::int64_t signed_to = facts.written_here ? facts.written_here->seq : 0;
    for (const SignedUpTo& s : facts.signatures) signed_to = std::max(signed_to, s.proof.seq);
    const std::int64_t last = through(device);
    unsigned_ +=
        std::max<std::int64_t>(0, count_up_to(mine.seqs, last) - count_up_to(mine.seqs, signed_to));
    const std::int64_t from = first_after(mine.seqs, last);
    if (from == 0 || last == kAllEntries) continue;
    HeldTablet held{device,
                    from,
                    mine.seqs.count() - count_up_to(mine.seqs, last),
                    mine.seqs.top(),
                    bounds_.at(device).why,
                    {}};
    if (!facts.keys.empty()) held.key = facts.keys.back().key;
    held_back_.push_back(std::move(held));
  }
}

std::vector<Signature> kept_signatures(const Journal& journal) {
  std::vector<Signature> all;
  for (const KeptRow& row : journal.kept_rows("signed")) {
    Signature s;
    if (parse_line(row.value, s)) all.push_back(std::move(s));
  }
  return all;
}

// One row for a tablet and key, of a fork one for each branch: the furthest.
std::vector<KeptRow> rows_to_keep(const Journal& journal, const Counting& counting,
                                  const std::vector<Signature>& signatures) {
  const auto forks = signatures.empty() ? Result<ForkTrees>(ForkTrees{}) : journal.forks();
  if (!forks.ok()) return {};
  const auto key_of = [&](const Signature& s) {
    const auto tree = forks.value().find(s.entry.device);
    const auto branch = tree == forks.value().end()
                            ? std::nullopt
                            : tree->second.name_of(s.entry.seq, s.entry.hash);
    return "signed " + s.entry.device + " " + (branch ? engine::text(*branch) : "-") + " " +
           hex(s.key);
  };
  std::map<std::string, Signature> furthest;
  for (const Signature& s : kept_signatures(journal)) furthest.emplace(key_of(s), s);
  std::map<std::string, std::string> rows;
  for (const Signature& s : signatures) {
    const auto facts = counting.facts().find(s.entry.device);
    if (facts == counting.facts().end() || !says_key(facts->second, s.key)) continue;
    if (!has_entry(journal, s.entry) || !holds(s)) continue;
    const std::string key = key_of(s);
    const auto [kept, fresh] = furthest.emplace(key, s);
    if (!fresh && kept->second.entry.seq >= s.entry.seq) continue;
    kept->second = s;
    rows[key] = to_line(s);
  }
  std::vector<KeptRow> all;
  for (auto& [key, value] : rows) all.push_back({key, value});
  return all;
}

}  // namespace storage
