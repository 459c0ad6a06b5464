// Whose entries count: what the screens show of it, and what they ask for (storage/TRUST.md).
#include <fmt/format.h>

#include "storage/trust/pairing.h"
#include "storage/trust/pairing_qr.h"
#include "storage/trust/tablet_key.h"
#include "ui/app/app.h"

namespace ui {
namespace {

HeldSeen seen_of(const storage::Store& store, const storage::HeldTablet& held) {
  HeldSeen seen{.tablet = held.tablet,
                .shown = held.shown(),
                .entries = static_cast<std::size_t>(held.entries),
                .from = held.from,
                .last = held.last,
                .why = storage::words(held.why),
                .refused = held.why == storage::HeldWhy::Refused};
  if (held.key) seen.key = storage::hex(*held.key);
  seen.would_do = store.would_do(held);
  return seen;
}

}  // namespace

// Anew when other entries are held back than before: all of those are read for it.
void App::refresh_trust() {
  std::string at = store_.counting().closed() ? "closed" : "open";
  for (const storage::HeldTablet& held : store_.counting().held_back())
    at +=
        fmt::format(" {} {} {} {}", held.tablet, held.from, held.entries, storage::words(held.why));
  if (trust_at_ == at) return;
  trust_at_ = at;
  trust_ = {.closed = store_.counting().closed()};
  for (const storage::HeldTablet& held : store_.counting().held_back())
    trust_.held.push_back(seen_of(store_, held));
  const auto key = storage::TabletKey::read(parts_.store_path);
  if (!key.ok()) return;
  trust_.words = storage::words_of(storage::fingerprint(key.value().public_key()));
  trust_.code = storage::qr_modules(storage::pairing_code(key.value().public_key()));
}

// Why there are no words is said in their place: the page asks as long as there is nothing.
void App::carry(const ShowWords&, const engine::Stamp& now) {
  const auto key = store_.make_key(now);
  if (key.ok())
    trust_at_.reset();
  else
    trust_.words = "none yet. " + key.status().message();
}

void App::carry(const PairWith& wanted, const engine::Stamp& now) {
  problem_title_ = "Not paired";
  std::string key;
  if (const auto scanned = storage::key_of_code(wanted.typed)) {
    key = storage::hex(*scanned);
  } else {
    const auto print = storage::fingerprint_of_words(wanted.typed);
    if (!print.ok()) {
      problem_ = print.status().message() + ".";
      return;
    }
    key = storage::to_text(print.value());
  }
  const auto own = store_.make_key(now);
  if (!own.ok()) {
    problem_ = own.status().message();
    return;
  }
  const storage::PublicKey& mine = own.value().public_key();
  if (key == storage::hex(mine) || key == storage::to_text(storage::fingerprint(mine))) {
    problem_ = "These are the words of this tablet. Type those of the other one.";
    return;
  }
  problem_title_.clear();
  carry(engine::Body{store_.trust_in(key)}, now);
  if (!problem_.empty()) return;
  problem_title_ = "Paired";
  problem_ = "Its entries count here as far as it signed them. Do the same on the other tablet.";
}

}  // namespace ui
