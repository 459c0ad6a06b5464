// The key of this tablet, its signatures, and whom it trusts.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/words/words.h"
#include "storage/journal/journal_check.h"
#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "storage/trust/tablet_key.h"
#include "storage/trust/would_do.h"

namespace storage {

Result<TabletKey> Store::make_key(const engine::Stamp& now) {
  if (Status able = writable(); !able.ok()) return able;
  auto key = TabletKey::read_or_make(journal_.path());
  if (!key.ok()) return key;
  const auto own = counting_.facts().find(journal_.device());
  const bool said = own != counting_.facts().end() && !own->second.keys.empty() &&
                    own->second.keys.back().key == key.value().public_key();
  if (said) return key;
  const Status kept = append(next(now, engine::TabletKeyed{hex(key.value().public_key())}));
  return kept.ok() ? key : Result<TabletKey>(kept);
}

std::vector<Signature> Store::signatures_for(std::span<const Sealed> events) const {
  std::map<std::string, std::int64_t> written_here = {{journal_.device(), kAllEntries}};
  for (const auto& was : journal_.written_here()) written_here[was.device] = was.last.seq;
  std::map<std::string, SignedEntry> own;  // the last of each
  std::map<Hash, const Sealed*> by_hash;
  for (const Sealed& s : events) {
    by_hash.emplace(s.hash, &s);
    const auto mine = written_here.find(s.record.device);
    if (mine == written_here.end() || s.record.seq > mine->second) continue;
    SignedEntry& last = own[s.record.device];
    if (last.seq < s.record.seq) last = {s.record.device, s.record.seq, s.hash};
  }
  std::vector<Signature> all;
  if (!own.empty())
    if (const auto key = TabletKey::read(journal_.path()); key.ok())
      for (auto& [device, last] : own) all.push_back(sign(key.value(), std::move(last)));
  for (const Signature& s : kept_signatures(journal_))
    if (by_hash.contains(s.entry.hash) && !own.contains(s.entry.device)) all.push_back(s);
  std::sort(all.begin(), all.end());
  return all;
}

// Of a flood the first entries tell as much as all.
std::vector<std::string> Store::would_do(const HeldTablet& held) const {
  constexpr std::size_t kLookedAt = 20'000;
  std::vector<engine::Event> events;
  (void)journal_.replay_of(held.tablet, 1, [&](const Sealed& s) {
    if (events.size() == kLookedAt || counting_.counts(s.record.device, s.record.seq, s.hash))
      return;
    if (auto event = to_event(s.record); event.ok()) events.push_back(std::move(event).value());
  });
  return storage::would_do(farm_, events);
}

std::string held_line(const Store& store, const HeldTablet& held) {
  std::string does;
  for (const std::string& line : store.would_do(held)) does += (does.empty() ? "" : "; ") + line;
  return fmt::format("Held back: tablet {} ({}), {} from {} on: {}", short_name(held.tablet),
                     words(held.why),
                     engine::counted(static_cast<std::size_t>(held.entries), "entry", "entries"),
                     held.from, does.empty() ? "nothing that this version can read" : does);
}

engine::TabletTrusted Store::trust_in(std::string key) const {
  engine::TabletTrusted trusted;
  if (!key.empty()) trusted.key = std::move(key);
  if (counting_.closed()) return trusted;
  trusted.known.emplace();
  for (const auto& [device, mine] : journal_.held())
    if (device != journal_.device()) trusted.known->push_back(device);
  return trusted;
}

}  // namespace storage
