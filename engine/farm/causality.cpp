#include "engine/farm/causality.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "engine/events/entry_refs.h"

namespace engine {
namespace {

// The clocks of one tablet's entries as earlier versions counted them: no event before one of its
// tablet, and each after what it followed.
class OldClocks {
 public:
  void take(const Event& e) {
    Line& line = lines_[e.ref.device];
    line.last = std::max(line.last, e.stamp.at.time_since_epoch().count());
    const auto* followed = std::get_if<ClockFollowed>(&e.body);
    if (followed != nullptr && followed->after_utc_ms >= line.last &&
        followed->after_utc_ms < std::numeric_limits<std::int64_t>::max())
      line.last = followed->after_utc_ms + 1;
    line.clocks.emplace_back(line.last, e.ref.seq);
  }
  // Of each other tablet the last entry up to that clock.
  [[nodiscard]] std::vector<EntryRef> up_to(std::int64_t clock, DeviceId reader) const {
    std::vector<EntryRef> read;
    for (const auto& [device, line] : lines_) {
      if (device == reader) continue;
      const auto after =
          std::upper_bound(line.clocks.begin(), line.clocks.end(),
                           std::pair{clock, std::numeric_limits<std::int64_t>::max()});
      if (after != line.clocks.begin()) read.push_back({device, std::prev(after)->second});
    }
    return read;
  }

 private:
  struct Line {
    std::int64_t last = std::numeric_limits<std::int64_t>::min();
    std::vector<std::pair<std::int64_t, std::int64_t>> clocks;  // with numbers, rising
  };
  std::map<DeviceId, Line> lines_;
};

}  // namespace

Causality::Causality(const Farm& farm) : branches_(farm.branches) {
  note_readings(farm.log);
  note_named(farm.log);
  for (auto& [device, readings] : readings_)
    std::sort(readings.begin(), readings.end(),
              [](const Reading& a, const Reading& b) { return a.seq < b.seq; });
}

void Causality::add(const EntryRef& by, std::vector<EntryRef> read) {
  readings_[by.device].push_back({by.seq, std::move(read)});
}

void Causality::note_readings(const Log& log) {
  bool by_clock = false;
  log.each<ClockFollowed>([&](const Entry& e) {
    const auto& followed = std::get<ClockFollowed>(e.event.body);
    by_clock = by_clock || !followed.read;
    if (!followed.read) return;
    std::vector<EntryRef> read = *followed.read;
    const auto has = [&](const EntryRef& ref) { return log.find(ref).has_value(); };
    for (EntryRef& ref : read) ref = side_read(branches_, ref, has);
    add(e.event.ref, std::move(read));
  });
  if (by_clock) read_clocks(log);
}

// A tablet writes a strike, a correction or a settling of what it has before it.
void Causality::note_named(const Log& log) {
  const auto names_what_was_read = [](const KindFacts& facts) {
    return facts.is_about_another() || facts.says == Says::Reading;
  };
  log.each_where(names_what_was_read, [&](const Entry& e) {
    Body body = e.event.body;
    std::vector<EntryRef> named;
    each_entry_ref(body, [&](const EntryRef& ref) {
      if (ref.device != e.event.ref.device) named.push_back(ref);
    });
    if (!named.empty()) add(e.event.ref, std::move(named));
  });
}

void Causality::read_clocks(const Log& log) {
  OldClocks clocks;
  log.scan(0, [&](std::size_t, const Entry& e) { clocks.take(e.event); });
  log.each<ClockFollowed>([&](const Entry& e) {
    const auto& followed = std::get<ClockFollowed>(e.event.body);
    if (!followed.read) add(e.event.ref, clocks.up_to(followed.after_utc_ms, e.event.ref.device));
  });
}

// All that was read up to there counts as reached; what it leads on to is left open.
void Causality::follow(const EntryRef& upto, Numbers& reached, std::vector<EntryRef>& open) const {
  std::int64_t& known = reached[upto.device];
  if (known >= upto.seq) return;
  const std::int64_t before = std::exchange(known, upto.seq);
  if (const Branch* branch = find_branch(branches_, upto.device); branch != nullptr && before == 0)
    open.push_back({branch->after, branch->from - 1});
  const auto readings = readings_.find(upto.device);
  if (readings == readings_.end()) return;
  const auto& list = readings->second;
  const auto later = [](std::int64_t seq, const Reading& r) { return seq < r.seq; };
  const auto end = std::upper_bound(list.begin(), list.end(), upto.seq, later);
  for (auto r = std::upper_bound(list.begin(), list.end(), before, later); r < end; ++r)
    open.insert(open.end(), r->read.begin(), r->read.end());
}

bool Causality::had_read(const EntryRef& reader, const EntryRef& what) const {
  Numbers reached;
  std::vector<EntryRef> open = {reader};
  while (!open.empty()) {
    const EntryRef next = open.back();
    open.pop_back();
    if (next.device == what.device && next.seq >= what.seq) return true;
    follow(next, reached, open);
  }
  return false;
}

}  // namespace engine
