#include "storage/store/store.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "engine/events/entry_refs.h"
#include "storage/store/checkpoint.h"
#include "storage/store/event_json.h"
#include "storage/store/merge_rules.h"

namespace storage {
namespace {

std::int64_t last_seq(const engine::Farm& farm, engine::DeviceId device) {
  const auto last = farm.last_seq.find(device);
  return last == farm.last_seq.end() ? 0 : last->second;
}

std::string impossible_line(const std::string& first, std::int64_t left_out) {
  const std::string more =
      left_out == 1 ? "It is" : fmt::format("It and {} more are", left_out - 1);
  return fmt::format(
      "{}. {} left out of what is shown; nothing was changed, and nothing new is saved. Copy the "
      "file away and try the newest version of this program.",
      first, more);
}

bool holds_others(const Journal& journal) {
  const auto& held = journal.held();
  return !journal.sides().empty() || std::any_of(held.begin(), held.end(), [&](const auto& device) {
    return device.first != journal.device();
  });
}

}  // namespace

std::string refusal_line(const engine::Event& e, engine::Refusal why) {
  return fmt::format("entry {} of device {}: {} is not possible here ({})", e.ref.seq,
                     engine::text(e.ref.device), engine::kind(e.body), engine::name(why));
}

Status fold_into(engine::Farm& farm, const engine::Event& e) {
  const engine::Refusal why = engine::why_not(farm, e);
  if (why != engine::Refusal::None) return {Code::BadInput, refusal_line(e, why)};
  farm = engine::apply(std::move(farm), e);
  return {};
}

Result<Store> Store::open(const std::string& path, JournalOptions options) {
  std::optional<Checkpoint> kept;
  if (options.checkpoint_from > 0) kept = read_checkpoint(options.vfs, path);
  if (kept) options.proven = kept->stands_on;
  auto journal = Journal::open(path, std::move(options));
  if (!journal.ok()) return journal.status();
  Store store(std::move(journal).value());
  const bool use = kept && store.journal_.proven_before() == kept->stands_on.arrivals &&
                   !store.journal_.damage();
  if (use) {
    store.checkpoint_at_ = kept->stands_on.arrivals;
    store.farm_ = std::move(kept->farm);
    store.clocks_ = std::move(kept->clocks);
  }
  kept.reset();
  if (!use || !store.replay_later().ok()) {
    store.checkpoint_at_ = 0;
    if (Status replayed = store.replay(); !replayed.ok()) return replayed;
  }
  store.keep_checkpoint();
  return store;
}

// Entries behind a gap wait: what they stand on may be in the bundle that is still to come.
Status Store::read_unbroken(std::int64_t from,
                            const std::function<Status(const Record&)>& take) const {
  const auto unbroken = last_before_gap(journal_.held());
  Status wrong;
  const Status read = journal_.replay_after(from, [&](const Sealed& sealed) {
    if (wrong.ok() && sealed.record.seq <= unbroken.at(sealed.record.device))
      wrong = take(sealed.record);
  });
  return read.ok() ? wrong : read;
}

// What came after the checkpoint. Anything out of the ordinary is for the replay of everything.
Status Store::replay_later() {
  if (!holds_others(journal_))
    return read_unbroken(checkpoint_at_, [this](const Record& r) { return fold(r); });
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
  if (!fresh.empty()) take_in(std::move(fresh));
  return {};
}

// Events that are new to the farm, of each tablet in one run after what it has.
void Store::take_in(std::vector<engine::Event> fresh) {
  farm_ = engine::take_together(std::move(farm_), std::move(fresh));
  read_clocks();
}

void Store::read_clocks() {
  clocks_ = engine::Clocks(farm_.branches);
  farm_.log.scan(0, [&](std::size_t, const engine::Entry& e) { clocks_.take(e.event); });
}

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
  const ProgressMark tip{journal_.device(), events, journal_.held(),
                         static_cast<std::int64_t>(journal_.sides().size())};
  const Checkpoint now{tip, farm_, clocks_};
  if (write_checkpoint(options.vfs, journal_.path(), now)) checkpoint_at_ = events;
}

Status Store::fold(const Record& record) {
  const auto event = to_event(record);
  const Status folded = event.ok() ? fold_into(farm_, event.value()) : event.status();
  if (folded.ok()) clocks_.take(event.value());
  if (folded.ok() || folded.code() == Code::TooNew) return folded;
  return {Code::Damaged, "the journal holds an entry that cannot be: " + folded.message()};
}

// The device's entries after this one still follow, although it is left out.
void Store::leave_out(const Record& record) {
  const auto device = engine::uuid_from_text(record.device);
  if (!device) return;
  std::int64_t& last = farm_.last_seq[engine::DeviceId{*device}];
  last = std::max(last, record.seq);
}

Status Store::replay() {
  farm_ = {}, clocks_ = {};
  if (journal_.damage()) return replay_one_by_one();
  if (holds_others(journal_)) return replay_together();
  const std::int64_t large = journal_.options().checkpoint_from;
  if (large <= 0 || journal_.size() < large) return replay_one_by_one();
  // Of a large one the strikes are looked up first, so that none of them makes it begin again. When
  // an entry does not fit then, the slow way tells whether a strike is to blame.
  const Status replayed = replay_together();
  const auto marked = farm_.log.marked();
  const bool clean = replayed.ok() && std::all_of(marked.begin(), marked.end(), [&](auto place) {
                       return farm_.log.copy(place).fallen == engine::Refusal::None;
                     });
  if (clean) return {};
  farm_ = {}, clocks_ = {};
  return replay_one_by_one();
}

// Where bytes are missing, what comes before the hole is shown; where all bytes are whole, every
// entry that fits is.
Status Store::replay_one_by_one() {
  const bool holes = journal_.damage().has_value();
  Status first_wrong;
  std::int64_t left_out = 0;
  const Status read = journal_.replay_after(0, [&](const Sealed& sealed) {
    if (holes && !first_wrong.ok()) return;
    const Status folded = fold(sealed.record);
    if (folded.ok()) return;
    ++left_out;
    const bool newer = folded.code() == Code::TooNew && first_wrong.code() != Code::TooNew;
    if (first_wrong.ok() || newer) first_wrong = folded;
    leave_out(sealed.record);
  });
  if (!holes && !read.ok()) return read;
  if (!holes && first_wrong.code() == Code::TooNew) return first_wrong;
  if (holes) damage_ = journal_.damage()->line;
  if (first_wrong.ok()) return {};
  if (holes)
    damage_ += fmt::format(" Shown up to there: {}.", first_wrong.message());
  else
    damage_ = impossible_line(first_wrong.message(), left_out);
  return {};
}

Status Store::replay_together() {
  const auto trees = journal_.forks();
  if (!trees.ok()) return trees.status();
  const engine::Branches branches = branches_in(trees.value());
  const auto unbroken = last_before_gap(journal_.held());
  engine::Log arrived;
  Status wrong;
  const Status read = journal_.replay([&](const Sealed& sealed) {
    const Record& r = sealed.record;
    const auto tree = trees.value().find(r.device);
    const bool forked = tree != trees.value().end();
    const auto side = forked ? tree->second.name_of(r.seq, sealed.hash) : std::nullopt;
    const bool waits = forked ? !side : r.seq > unbroken.at(r.device);
    if (!wrong.ok() || waits) return;
    auto event = to_event(r);
    wrong = event.status();
    if (!event.ok()) return;
    arrived.push_back(side ? engine::on_side(std::move(event).value(), *side, branches)
                           : std::move(event).value());
  });
  if (!read.ok() || !wrong.ok()) return read.ok() ? wrong : read;
  farm_ = engine::fold_together(arrived, branches);
  read_clocks();
  return {};
}

Status Store::writable() const {
  return damage_.empty() ? journal_.writable() : Status{Code::Damaged, damage_};
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

Status Store::append(const engine::Event& event) {
  if (engine::to_come_last(clocks_, event).size() > 1) return append_all({&event, 1});
  if (Status able = writable(); !able.ok()) return able;
  const Record record = to_record(event);
  const auto kept = to_event(record);
  if (!kept.ok()) return {Code::BadInput, kept.status().message()};
  const engine::Refusal why = engine::why_not(farm_, kept.value());
  if (why != engine::Refusal::None) return {Code::BadInput, refusal_line(event, why)};
  if (Status written = journal_.append(record); !written.ok()) return written;
  farm_ = engine::apply(std::move(farm_), kept.value());
  clocks_.take(kept.value());
  return {};
}

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

Status Store::append_all(std::span<const engine::Event> events) {
  if (Status able = writable(); !able.ok()) return able;
  engine::Farm after = farm_;
  engine::Clocks clocks = clocks_;
  std::vector<Record> records;
  records.reserve(events.size());
  for (const engine::Event& event : numbered(events)) {
    records.push_back(to_record(event));
    const auto kept = to_event(records.back());
    if (!kept.ok()) return {Code::BadInput, kept.status().message()};
    if (Status folded = fold_into(after, kept.value()); !folded.ok()) return folded;
    clocks.take(kept.value());
  }
  if (Status written = journal_.append_all(records); !written.ok()) return written;
  farm_ = std::move(after);
  clocks_ = std::move(clocks);
  return {};
}

}  // namespace storage
