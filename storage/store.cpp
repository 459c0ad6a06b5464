#include "storage/store.h"

#include <fmt/format.h>

#include <utility>

#include "storage/event_json.h"
#include "storage/paths.h"

namespace storage {
namespace {

std::int64_t last_seq(const engine::Farm& farm, engine::DeviceId device) {
  const auto last = farm.last_seq.find(device);
  return last == farm.last_seq.end() ? 0 : last->second;
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
  if (options.create)
    if (Status made = make_folders_for(path); !made.ok()) return made;
  auto journal = Journal::open(path, std::move(options));
  if (!journal.ok()) return journal.status();
  Store store(std::move(journal).value());
  if (Status replayed = store.replay(); !replayed.ok()) return replayed;
  return store;
}

Status Store::fold(const Record& record) {
  const auto event = to_event(record);
  if (!event.ok()) return event.status();
  const Status folded = fold_into(farm_, event.value());
  if (folded.ok()) return {};
  return {Code::Damaged, "the journal holds an entry that cannot be: " + folded.message()};
}

Status Store::replay() {
  Status first_wrong;
  const Status read = journal_.replay([&](const Sealed& sealed) {
    if (first_wrong.ok()) first_wrong = fold(sealed.record);
  });
  if (!journal_.damage()) return first_wrong.ok() ? read : first_wrong;
  // After a hole the rest may not fit any more: what comes before it is shown.
  damage_ = journal_.damage()->line;
  if (!first_wrong.ok()) damage_ += fmt::format(" Shown up to there: {}.", first_wrong.message());
  return {};
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
  const Record record = to_record(event);
  const auto kept = to_event(record);
  if (!kept.ok()) return {Code::BadInput, kept.status().message()};
  const engine::Refusal why = engine::why_not(farm_, kept.value());
  if (why != engine::Refusal::None) return {Code::BadInput, refusal_line(event, why)};
  if (Status written = journal_.append(record); !written.ok()) return written;
  farm_ = engine::apply(std::move(farm_), kept.value());
  return {};
}

Status Store::append_all(std::span<const engine::Event> events) {
  engine::Farm after = farm_;
  std::vector<Record> records;
  records.reserve(events.size());
  for (const engine::Event& event : events) {
    records.push_back(to_record(event));
    const auto kept = to_event(records.back());
    if (!kept.ok()) return {Code::BadInput, kept.status().message()};
    if (Status folded = fold_into(after, kept.value()); !folded.ok()) return folded;
  }
  if (Status written = journal_.append_all(records); !written.ok()) return written;
  farm_ = std::move(after);
  return {};
}

}  // namespace storage
