#include "engine/farm/merge_order.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "engine/events/entry_refs.h"
#include "engine/farm/common_clock.h"
#include "engine/farm/fold.h"
#include "engine/farm/strike_marks.h"

namespace engine {
namespace {

// Where an event comes in the common order. Ties go by what the entry itself calls its tablet: a
// fork that comes to light moves nothing.
struct Key {
  std::int64_t clock = 0;
  EntryRef written;
  DeviceId side;
  friend auto operator<=>(const Key&, const Key&) = default;
};

Key key_of(std::int64_t clock, const EntryRef& ref, const Branches& branches) {
  const Branch* branch = find_branch(branches, ref.device);
  return {clock, {branch == nullptr ? ref.device : branch->device, ref.seq}, ref.device};
}

// Which side of a fork an entry means that knew of none when it was written: the only one that had
// that number by then. Where several had, it means none, and falls.
class Meant {
 public:
  explicit Meant(const Branches& branches) : branches_(branches) {}

  void note(const EntryRef& ref, std::int64_t clock) {
    if (find_branch(branches_, ref.device) != nullptr) clocks_[ref] = clock;
  }
  void tell(Event& e, std::int64_t clock) const {
    each_entry_ref(e.body, [&](EntryRef& ref) {
      if (forks_behind(branches_, ref)) ref = the_only(ref, clock).value_or(ref);
    });
  }

 private:
  [[nodiscard]] std::optional<EntryRef> the_only(const EntryRef& ref, std::int64_t before) const {
    std::optional<EntryRef> only;
    for (const Branch& b : branches_) {
      const auto at = clocks_.find({b.id, ref.seq});
      if (at == clocks_.end() || at->second >= before || b.id == ref.device ||
          !goes_on_from(branches_, b.id, ref.device))
        continue;
      if (only) return std::nullopt;
      only = at->first;
    }
    return only;
  }

  const Branches& branches_;
  std::map<EntryRef, std::int64_t> clocks_;  // of all entries on sides
};

struct Placed {
  Key key;
  Event event;
};

// The first place whose correction stands at `from` or later and has fallen: that is found out
// anew.
std::size_t first_corrected_behind(const Log& log, std::size_t from) {
  std::size_t first = log.size();
  for (const std::size_t place : log.marked())
    if (place >= from) first = std::min(first, first_place(log, place));
  return first;
}

void note_number(Farm& f, const EntryRef& ref) {
  std::int64_t& last = f.last_seq[ref.device];
  last = std::max(last, ref.seq);
}

void note_numbers(Farm& f) {
  f.last_seq.clear();
  f.log.scan(0, [&](std::size_t, const Entry& e) { note_number(f, e.event.ref); });
}

// Of all entries that are there, and then of the fresh ones.
std::vector<Key> keys_of(const Farm& f, const std::vector<Event>& fresh) {
  CommonClock clock(f.branches);
  std::vector<Key> keys;
  keys.reserve(f.log.size() + fresh.size());
  const auto add = [&](const Event& e) {
    clock.add(e);
    keys.push_back(key_of(0, e.ref, f.branches));
  };
  f.log.scan(0, [&](std::size_t, const Entry& e) { add(e.event); });
  for (const Event& e : fresh) add(e);
  clock.count();
  for (std::size_t i = 0; i < keys.size(); ++i) keys[i].clock = clock.of(i);
  return keys;
}

// The first place at which another entry belongs than the one that is there.
std::size_t first_moved(const std::vector<Key>& keys, std::size_t there) {
  assert(there <= keys.size());
  if (keys.empty()) return 0;
  const Key* least = nullptr;  // of all behind
  for (std::size_t i = keys.size(); i-- > there;)
    if (least == nullptr || keys[i] < *least) least = &keys[i];
  std::size_t from = there;
  for (std::size_t i = there; i-- > 0;) {
    if (least != nullptr && *least < keys[i])
      from = i;
    else
      least = &keys[i];
  }
  return from;
}

// The entries from that place on, and the fresh ones.
std::vector<Placed> tail_of(const Log& log, std::size_t from, const std::vector<Key>& keys,
                            std::vector<Event> fresh) {
  assert(from <= log.size() && keys.size() == log.size() + fresh.size());
  std::vector<Placed> tail;
  tail.reserve(keys.size() - from);
  for (std::size_t i = from; i < log.size(); ++i) tail.push_back({keys[i], log.as_written(i)});
  for (std::size_t i = 0; i < fresh.size(); ++i)
    tail.push_back({keys[log.size() + i], std::move(fresh[i])});
  return tail;
}

}  // namespace

Log in_common_order(const Log& arrived, const Branches& branches) {
  CommonClock clock(branches);
  std::vector<std::pair<Key, std::size_t>> keys;
  keys.reserve(arrived.size());
  arrived.scan(0, [&](std::size_t i, const Entry& e) {
    clock.add(e.event);
    keys.emplace_back(key_of(0, e.event.ref, branches), i);
  });
  clock.count();
  Meant meant(branches);
  for (auto& [key, i] : keys) {
    key.clock = clock.of(i);
    meant.note({key.side, key.written.seq}, key.clock);
  }
  if (!std::is_sorted(keys.begin(), keys.end())) std::sort(keys.begin(), keys.end());
  Log ordered;
  for (const auto& [key, i] : keys) {
    Event e = arrived.as_written(i);
    if (!branches.empty()) meant.tell(e, key.clock);
    ordered.push_back(std::move(e));
  }
  return ordered;
}

Farm fold_together(const Log& arrived, Branches branches) {
  Farm f;
  f.branches = std::move(branches);
  f.log = in_common_order(arrived, f.branches);
  note_numbers(f);
  (void)mark_strikes_and_joins(f);
  return fold_again(std::move(f));
}

Farm fold_together(std::vector<Event> events, Branches branches) {
  Log arrived;
  for (Event& e : events) arrived.push_back(std::move(e));
  return fold_together(arrived, std::move(branches));
}

// With `fresh` none is new: then a reading may have moved what is there.
Farm take_together(Farm f, std::vector<Event> fresh) {
  const std::vector<Key> keys = keys_of(f, fresh);
  const std::size_t from = first_moved(keys, f.log.size());
  if (from == keys.size()) return f;
  std::vector<Placed> tail = tail_of(f.log, from, keys, std::move(fresh));
  std::sort(tail.begin(), tail.end(),
            [](const Placed& a, const Placed& b) { return a.key < b.key; });
  const std::size_t corrected = first_corrected_behind(f.log, from);
  f.log.truncate(from);
  std::set<Thing> brought;
  for (Placed& p : tail) {
    note_number(f, p.event.ref);
    f.log.push_back(std::move(p.event));
    if (const auto thing = thing_to_wait_for(f.log.back()->event.body)) brought.insert(*thing);
  }
  const std::size_t struck = mark_strikes_and_joins(f);
  const std::size_t waiting = first_waiting(f.log, brought, from);
  return fold_again(std::move(f), std::min({from, corrected, struck, waiting}));
}

Farm put_in_order(Farm f) { return take_together(std::move(f), {}); }

Farm fold_without_strikes(const Farm& farm) {
  Farm f;
  f.branches = farm.branches;
  f.log = farm.log;
  for (const std::size_t place : farm.log.marked()) f.log.set_struck(place, {});
  (void)mark_joins(f.log);
  note_numbers(f);
  return fold_again(std::move(f));
}

}  // namespace engine
