#include "storage/store/store.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "engine/events/entry_refs.h"
#include "engine/farm/setups.h"
#include "storage/journal/journal_testing.h"
#include "storage/store/checkpoint.h"
#include "storage/store/event_json.h"
#include "storage/store/intake_bounds.h"
#include "storage/store/key_entries.h"
#include "storage/store/merge_rules.h"
#include "storage/store/replay.h"

namespace storage {
namespace {

std::int64_t last_seq(const engine::Farm& farm, engine::DeviceId device) {
  const auto last = farm.last_seq.find(device);
  return last == farm.last_seq.end() ? 0 : last->second;
}

bool holds_others(const Journal& journal) {
  const auto& held = journal.held();
  return !journal.sides().empty() || std::any_of(held.begin(), held.end(), [&](const auto& device) {
    return device.first != journal.device();
  });
}

bool says_of_keys(std::span<const engine::Event> events) {
  return std::any_of(events.begin(), events.end(), [](const engine::Event& e) {
    return std::string_view(engine::kind(e.body)).starts_with("tablet_");
  });
}

bool decides_whom_to_trust(std::span<const engine::Event> events) {
  return std::any_of(events.begin(), events.end(), [](const engine::Event& e) {
    return std::holds_alternative<engine::TabletTrusted>(e.body) ||
           std::holds_alternative<engine::TabletRefused>(e.body);
  });
}

}  // namespace

Store::Store(Journal journal) : journal_(std::move(journal)) {
  if (const JournalTesting* testing = journal_.options().testing)
    fold_ = GuardedFold(testing->before_folding);
}

Result<Store> Store::open(const std::string& path, JournalOptions options) {
  std::optional<Checkpoint> kept;
  if (options.checkpoint_from > 0) kept = read_checkpoint(options.vfs, path);
  if (kept) options.proven = kept->proven;
  auto journal = Journal::open(path, std::move(options));
  if (!journal.ok()) return journal.status();
  Store store(std::move(journal).value());
  if (Status counted = store.count_anew(); !counted.ok()) return counted;
  if (!kept || !store.begin_with(std::move(*kept)))
    if (Status replayed = store.replay_all(); !replayed.ok()) return replayed;
  store.show_here();
  store.keep_checkpoint();
  return store;
}

Result<Store> Store::look(const std::string& path, std::string bytes, JournalOptions options) {
  auto journal = Journal::look(path, std::move(bytes), std::move(options));
  if (!journal.ok()) return journal.status();
  Store store(std::move(journal).value());
  if (Status counted = store.count_anew(); !counted.ok()) return counted;
  if (Status replayed = store.replay_all(); !replayed.ok()) return replayed;
  return store;
}

Status Store::count_anew() {
  auto counting = Counting::of(journal_);
  if (!counting.ok()) return counting.status();
  counting_ = std::move(counting).value();
  return {};
}

// False: it is not to be trusted, or something out of the ordinary came later.
bool Store::begin_with(Checkpoint kept) {
  const std::int64_t proven = journal_.proven_before();
  if (journal_.damage() || proven == 0 || proven != kept.proven.tip.arrivals) return false;
  if (!complete(kept) || !counting_.all_count(kept.proven.tip.held)) return false;
  checkpoint_at_ = proven;
  farm_ = std::move(kept.farm);
  clocks_ = std::move(kept.clocks);
  return replay_later().ok();
}

// Entries behind a gap wait: what they stand on may be in the bundle that is still to come.
Status Store::read_unbroken(std::int64_t from,
                            const std::function<Status(const Record&)>& take) const {
  const auto unbroken = last_before_gap(journal_.held());
  Status wrong;
  const Status read = journal_.replay_after(from, [&](const Sealed& sealed) {
    const std::string& device = sealed.record.device;
    if (wrong.ok() && sealed.record.seq <= unbroken.at(device) &&
        counting_.counts(device, sealed.record.seq, sealed.hash))
      wrong = take(sealed.record);
  });
  return read.ok() ? wrong : read;
}

// What came after the checkpoint. Anything out of the ordinary is for the replay of everything.
Status Store::replay_later() {
  if (!holds_others(journal_))
    return read_unbroken(checkpoint_at_, [this](const Record& r) {
      const auto event = to_event(r);
      const Status folded = event.ok() ? fold_.recorded(farm_, event.value()) : event.status();
      if (folded.ok()) clocks_.take(event.value());
      return folded;
    });
  const auto forked = tablets_with_sides(journal_);
  std::vector<engine::Event> fresh;
  const Status read = read_unbroken(checkpoint_at_, [&](const Record& record) {
    if (forked.contains(record.device)) return Status(Code::Failed, "it may change a fork");
    auto event = to_event(record);
    if (!event.ok()) return event.status();
    if (engine::names_a_fork(event.value(), farm_.branches))
      return Status(Code::Failed, "what it means is told among all entries");
    fresh.push_back(std::move(event).value());
    return Status{};
  });
  if (!read.ok()) return read;
  return fresh.empty() ? Status{} : take_in(std::move(fresh));
}

// Events that are new to the farm, of each tablet in one run after what it has. After a failure all
// must be replayed.
Status Store::take_in(std::vector<engine::Event> fresh) {
  if (Status taken = fold_.more(farm_, std::move(fresh)); !taken.ok()) return taken;
  clocks_ = clocks_of(farm_);
  return {};
}

// With what is set on this tablet, under the id that it has now.
void Store::show_here() { farm_ = engine::shown_on(std::move(farm_), device()); }

// Written when it would save work at the next opening, and never of what is in doubt or waits.
void Store::keep_checkpoint() {
  constexpr std::int64_t kWorthIt = 5000;  // later events: some hundredths of a second
  const JournalOptions& options = journal_.options();
  const std::int64_t events = journal_.size();
  const bool all_in =
      farm_.log.size() == static_cast<std::size_t>(events) + journal_.sides().size();
  if (options.checkpoint_from <= 0 || events < options.checkpoint_from || !all_in ||
      !writable().ok() || (checkpoint_at_ > 0 && events - checkpoint_at_ < kWorthIt))
    return;
  if (!journal_.make_secret().ok() || !note_key_entries(journal_).ok()) return;
  const ProgressMark tip{journal_.device(), events, journal_.held(),
                         static_cast<std::int64_t>(journal_.sides().size())};
  const Checkpoint now{{tip, {}, {}}, farm_, clocks_};
  if (write_checkpoint(options.vfs, journal_.path(), now, journal_.secret()))
    checkpoint_at_ = events;
}

Status Store::replay_all() {
  auto all = replay(journal_, fold_, counting_);
  if (!all.ok()) return all.status();
  farm_ = std::move(all.value().farm);
  clocks_ = std::move(all.value().clocks);
  unshown_ = std::move(all.value().unshown);
  show_here();
  checkpoint_at_ = 0;
  damage_ = why_locked();
  return {};
}

std::string Store::why_locked() const {
  if (journal_.damage()) return journal_.damage()->line;
  const auto newer = std::find_if(unshown_.begin(), unshown_.end(), [&](const Unshown& u) {
    return u.newer && u.entry.device == device();
  });
  if (newer == unshown_.end()) return {};
  return fmt::format(
      "{}. A newer version of this program wrote on this tablet: update this one. Nothing was "
      "changed, and nothing new is saved.",
      newer->why);
}

VerifyReport Store::verify() const {
  VerifyReport report = journal_.verify();
  if (!report.ok()) return report;
  const auto anew = replay(journal_, fold_, counting_);
  if (!anew.ok()) {
    report.problems.push_back(anew.status().message());
  } else if (engine::state_hash(anew.value().farm) != engine::state_hash(farm_)) {
    report.problems.emplace_back("what is shown is not what its entries say");
    report.shown_otherwise = true;
  }
  return report;
}

Status Store::writable() const {
  if (damage_.empty() || !journal_.writable().ok()) return journal_.writable();
  return {Code::TooNew, damage_};
}

engine::DeviceId Store::device() const {
  return {engine::uuid_from_text(journal_.device()).value_or(engine::UuidBytes{})};
}

engine::Event Store::next(engine::Stamp stamp, engine::Body body) const {
  const engine::DeviceId own = device();
  return {{own, last_seq(farm_, own) + 1}, std::move(stamp), std::move(body)};
}

std::vector<engine::Event> Store::next_all(const engine::Stamp& stamp,
                                           std::vector<engine::Body> bodies) const {
  engine::EntryRef ref{device(), last_seq(farm_, device())};
  std::vector<engine::Event> events;
  events.reserve(bodies.size());
  for (engine::Body& body : bodies) {
    ++ref.seq;
    events.push_back({ref, stamp, std::move(body)});
  }
  return events;
}

constexpr std::size_t kEventsBetween = 256;  // two reports of the progress

Status Store::append(const engine::Event& event) { return append_all({&event, 1}); }

// The events as they are to be written now: after all that was read, in one run of numbers.
std::vector<engine::Event> Store::numbered(std::span<const engine::Event> events) const {
  if (events.empty()) return {};
  std::vector<engine::Event> all = engine::to_come_last(clocks_, events.front());
  const auto shift = static_cast<std::int64_t>(all.size()) - 1;
  for (const engine::Event& event : events.subspan(1)) {
    all.push_back(event);
    all.back().ref.seq += shift;
  }
  return all;
}

Status Store::append_all(std::span<const engine::Event> events, const Progress& progress) {
  if (Status able = writable(); !able.ok()) return able;
  engine::Farm after = farm_;
  engine::Clocks clocks = clocks_;
  std::vector<Record> records;
  records.reserve(events.size());
  for (const engine::Event& event : numbered(events)) {
    if (progress && records.size() % kEventsBetween == 1)
      progress("writing", records.size(), events.size());
    records.push_back(to_record(event));
    const auto kept = to_event(records.back());
    if (!kept.ok()) return {Code::BadInput, kept.status().message()};
    if (std::string wrong = why_not_taken_in(kept.value()); !wrong.empty())
      return {Code::BadInput, std::move(wrong)};
    if (Status folded = fold_.one(after, kept.value()); !folded.ok()) return folded;
    clocks.take(kept.value());
  }
  if (Status written = journal_.append_all(records); !written.ok()) return written;
  farm_ = std::move(after);
  clocks_ = std::move(clocks);
  if (says_of_keys(events))
    if (Status counted = count_anew(); !counted.ok()) return counted;
  if (decides_whom_to_trust(events)) return replay_all();
  if (records.size() > events.size() && clocks_.in_doubt()) {
    // What is said now to have been read may tell which clock is wrong: nothing new, another order.
    if (!take_in({}).ok()) return replay_all();
  }
  return {};
}

}  // namespace storage
