#include <fmt/format.h>

#include <algorithm>

#include "engine/words/words.h"
#include "storage/store/kept_setup.h"
#include "storage/trust/pairing.h"
#include "storage/trust/pairing_qr.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

// The tablet whose id ends like that; BadInput: none or several do.
Result<std::string> tablet_called(const storage::Store& store, const std::string& digits) {
  std::vector<std::string> found;
  for (const auto& [device, mine] : store.journal().held())
    if (device != store.journal().device() && !digits.empty() && device.ends_with(digits))
      found.push_back(device);
  if (found.size() == 1) return found.front();
  return {Code::BadInput, fmt::format("no tablet whose entries are here is called {}: {}", digits,
                                      found.empty() ? "name the last eight digits of its id"
                                                    : "give more digits of its id")};
}

Result<std::string> key_in(const PairCall& call) {
  if (call.code) {
    const auto key = storage::key_of_code(*call.code);
    if (!key) return {Code::BadInput, "--code: this is not what a tablet's QR code says"};
    return storage::hex(*key);
  }
  const auto print = storage::fingerprint_of_words(*call.words);
  if (!print.ok()) return {Code::BadInput, "--words: " + print.status().message()};
  return storage::to_text(print.value());
}

// Somebody who types the own words has mixed the tablets up.
Status is_of_another(const storage::PublicKey& own, const std::string& key) {
  const bool same = key == storage::hex(own) || key == storage::to_text(storage::fingerprint(own));
  if (!same) return {};
  return {Code::BadInput, "these are the words of this tablet; type those of the other one"};
}

Result<engine::Body> take_in(const storage::Store& store, const std::string& digits) {
  const auto tablet = tablet_called(store, digits);
  if (!tablet.ok()) return tablet.status();
  engine::TabletTrusted taken;
  taken.tablet = tablet.value();
  taken.through = store.journal().held().at(tablet.value()).seqs.top();
  return engine::Body{std::move(taken)};
}

// With its key, so that it does not come again under another id.
Result<engine::Body> keep_out(const storage::Store& store, const PairCall& call) {
  const auto tablet = tablet_called(store, *call.keep_out);
  if (!tablet.ok()) return tablet.status();
  engine::TabletRefused refused{tablet.value(), call.from.value_or(1), {}};
  const auto& facts = store.counting().facts();
  if (const auto at = facts.find(tablet.value()); at != facts.end() && !at->second.keys.empty())
    refused.key = storage::hex(at->second.keys.back().key);
  return engine::Body{std::move(refused)};
}

Result<std::vector<engine::Body>> decisions(const storage::Store& store, const PairCall& call,
                                            const storage::PublicKey& own) {
  std::vector<engine::Body> all;
  if (call.words || call.code) {
    const auto key = key_in(call);
    if (!key.ok()) return key.status();
    if (Status other = is_of_another(own, key.value()); !other.ok()) return other;
    all.emplace_back(store.trust_in(key.value()));
  }
  if (call.close) all.emplace_back(store.trust_in({}));
  for (const auto& decided :
       {call.take_in ? take_in(store, *call.take_in) : Result<engine::Body>(engine::Body{}),
        call.keep_out ? keep_out(store, call) : Result<engine::Body>(engine::Body{})}) {
    if (!decided.ok()) return decided.status();
    const bool said = std::holds_alternative<engine::TabletTrusted>(decided.value()) ||
                      std::holds_alternative<engine::TabletRefused>(decided.value());
    if (said) all.push_back(decided.value());
  }
  return all;
}

void show(const storage::Store& store, const storage::PublicKey& own) {
  say("This tablet is {}. Its words:\n\n    {}\n\n", engine::short_device(store.device()),
      storage::words_of(storage::fingerprint(own)));
  fmt::print("{}\n", storage::qr_for_terminal(storage::pairing_code(own)));
  say("The same as a code: {}\n", storage::pairing_code(own));
  say("On the other tablet: duskwalk pair --words \"...\" with these; then the same here with "
      "its.\n");
  if (!store.counting().closed())
    say("Never paired: whatever a stick or the exchange folder brings counts.\n");
  print_held_back(store);
}

}  // namespace

int pair_command(const PairCall& call, const Surroundings& around) {
  if (call.words && call.code)
    return say_failure(Code::BadInput, "--words and --code: one of them is enough");
  auto store = open_whole_store(call, around, true);
  if (!store.ok()) return say_failure(store.status());
  const engine::Stamp now = around.now();
  const auto key = store.value().make_key(now);
  if (!key.ok()) return say_failure(key.status());
  const auto decided = decisions(store.value(), call, key.value().public_key());
  if (!decided.ok()) return say_failure(decided.status());
  for (const engine::Body& body : decided.value()) {
    const Status saved = store.value().append(store.value().next(now, body));
    if (!saved.ok()) return say_failure(saved);
    say("{}\n", engine::describe(body, store.value().farm()));
  }
  if (decided.value().empty())
    show(store.value(), key.value().public_key());
  else
    print_held_back(store.value());
  return 0;
}

}  // namespace ui
