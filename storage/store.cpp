#include "storage/store.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

#include "storage/event_json.h"
#include "storage/merge_rules.h"

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
  return std::any_of(held.begin(), held.end(),
                     [&](const auto& device) { return device.first != journal.device(); });
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
  auto journal = Journal::open(path, std::move(options));
  if (!journal.ok()) return journal.status();
  Store store(std::move(journal).value());
  if (Status replayed = store.replay(); !replayed.ok()) return replayed;
  return store;
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

// Where bytes are missing, what comes before the hole is shown; where all bytes are whole, every
// entry that fits is.
Status Store::replay() {
  const bool holes = journal_.damage().has_value();
  if (!holes && holds_others(journal_)) return replay_together();
  Status first_wrong;
  std::int64_t left_out = 0;
  const Status read = journal_.replay([&](const Sealed& sealed) {
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

// Entries behind a gap wait: what they stand on may be in the bundle that is still to come.
Status Store::replay_together() {
  const auto unbroken = last_before_gap(journal_.held());
  std::vector<engine::Event> events;
  Status wrong;
  const Status read = journal_.replay([&](const Sealed& sealed) {
    if (!wrong.ok() || sealed.record.seq > unbroken.at(sealed.record.device)) return;
    auto event = to_event(sealed.record);
    if (event.ok())
      events.push_back(std::move(event).value());
    else
      wrong = event.status();
  });
  if (!read.ok()) return read;
  if (!wrong.ok()) return wrong;
  farm_ = engine::fold_together(std::move(events));
  clocks_ = {};
  for (const engine::Entry& entry : farm_.log) clocks_.take(entry.event);
  return {};
}

Result<Merged> Store::merge(std::vector<Sealed> events) {
  if (Status able = writable(); !able.ok()) return able;
  std::sort(events.begin(), events.end(), [](const Sealed& a, const Sealed& b) {
    return std::tie(a.record.device, a.record.seq, a.hash) <
           std::tie(b.record.device, b.record.seq, b.hash);
  });
  Merged merged;
  merged.lines = leave_out_unfit(journal_, events);
  const auto adopted = journal_.adopt_all(events);
  if (!adopted.ok()) return adopted.status();
  merged.added = adopted.value().added;
  merged.known = adopted.value().known;
  for (std::string& line : fork_lines(adopted.value().forks)) merged.lines.push_back(line);
  for (std::string& line : gap_lines(journal_.held())) merged.lines.push_back(line);
  if (merged.added == 0) return merged;
  if (Status replayed = replay_together(); !replayed.ok()) return replayed;
  return merged;
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
