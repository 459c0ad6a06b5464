#include "engine/words/contradictions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <map>
#include <set>

#include "engine/events/entry_refs.h"
#include "engine/farm/forks.h"
#include "engine/farm/merge_order.h"
#include "engine/farm/queries.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"

namespace engine {
namespace {

// The correction that came too late, and the strike or correction that holds.
std::vector<EntryRef> corrected_twice(const Farm& farm, const Entry& late) {
  std::vector<EntryRef> sides = {late.event.ref};
  if (const auto* c = std::get_if<EntryCorrected>(&late.event.body))
    if (const EntryHandle struck = find_entry(farm, c->entry); struck != nullptr && struck->struck)
      sides.push_back(struck->struck->by);
  std::sort(sides.begin(), sides.end());
  return sides;
}

// The strike that waits for people, and what it struck.
std::vector<EntryRef> waiting_strike(const Entry& e) {
  std::vector<EntryRef> sides = {e.event.ref};
  Body body = e.event.body;
  each_entry_ref(body, [&](const EntryRef& ref) { sides.push_back(ref); });
  std::sort(sides.begin(), sides.end());
  return sides;
}

// ---- one row of a sheet, read on two tablets ----

template <class T>
bool contradict(const std::optional<T>& a, const std::optional<T>& b) {
  return a && b && *a != *b;
}
bool contradict(const std::string& a, const std::string& b) {
  return !a.empty() && !b.empty() && a != b;
}
bool contradict(const YardAdded& a, const YardAdded& b) {
  return contradict(a.name, b.name) || contradict(a.place, b.place) || contradict(a.zone, b.zone) ||
         contradict(a.note, b.note);
}
bool contradict(const ColonyAdded& a, const ColonyAdded& b) {
  return a.yard != b.yard || a.brood_boxes != b.brood_boxes || a.supers_on != b.supers_on ||
         contradict(a.name, b.name) || contradict(a.spot, b.spot) || contradict(a.order, b.order) ||
         contradict(a.note, b.note);
}
bool contradict(const CountTaken& a, const CountTaken& b) {
  return a.colony != b.colony || a.on != b.on || a.method != b.method || a.mites != b.mites ||
         a.bees != b.bees || a.hours != b.hours || contradict(a.note, b.note);
}

// The sheet's count that an entry says, itself or as a correction.
std::optional<CountTaken> sheet_count_in(const Entry& e) {
  const auto said = words_of(e);
  const auto* taken = said ? std::get_if<CountTaken>(&said->body()) : nullptr;
  return taken != nullptr && taken->count ? std::optional(*taken) : std::nullopt;
}

// The count that stands where this one would; nullptr: it fell for another reason.
const Count* counted_before(const Farm& farm, const Entry& e) {
  if (e.fallen != Refusal::AlreadyThere) return nullptr;
  const auto taken = sheet_count_in(e);
  return taken ? farm.counts.find(taken->colony, *taken->count) : nullptr;
}

// The same row says the same, also where the first one was corrected since.
void find_counted_twice(const Farm& farm, const Entry& late, const Count& there,
                        std::vector<Contradicted>& found) {
  assert(sheet_count_in(late));
  const CountTaken taken = *sheet_count_in(late);
  const EntryHandle first = find_entry(farm, there.entry);
  const auto* said = first == nullptr ? nullptr : std::get_if<CountTaken>(&first->event.body);
  const bool same =
      (said != nullptr && !contradict(*said, taken)) || !contradict(there.taken, taken);
  if (same) return;
  std::vector<EntryRef> sides = {there.entry, late.event.ref};
  std::sort(sides.begin(), sides.end());
  found.push_back({Contradiction::SaidTwice, std::move(sides)});
}

void find_misfits(const Farm& farm, std::vector<Contradicted>& found) {
  std::vector<Entry> misfits;
  for (const std::size_t place : farm.log.marked())
    if (Entry e = farm.log.copy(place); e.fallen != Refusal::None && !e.struck)
      misfits.push_back(std::move(e));
  std::optional<Farm> bare;
  for (const Entry& e : misfits) {
    const bool strike = std::holds_alternative<EntryStruck>(e.event.body);
    if (strike && e.fallen == Refusal::AlreadyStruck) continue;  // both say the same
    if (facts_of(e.event.body).is_join() && e.fallen == Refusal::AlreadyThere) continue;
    if (e.fallen == Refusal::NotStruck) continue;  // likewise, of takings back
    if (e.fallen == Refusal::OthersStandOnIt) {
      found.push_back({Contradiction::StruckUnread, waiting_strike(e)});
      continue;
    }
    if (const Count* there = counted_before(farm, e)) {
      find_counted_twice(farm, e, *there, found);
      continue;
    }
    if (e.fallen == Refusal::AlreadyStruck) {
      found.push_back({Contradiction::CorrectedTwice, corrected_twice(farm, e)});
      continue;
    }
    bool alone = strike || facts_of(e.event.body).is_fact();
    if (!alone) {
      if (!bare) bare = fold_without_strikes(farm);
      alone = bare->log.copy(*bare->log.find(e.event.ref)).fallen != Refusal::None;
    }
    if (alone) found.push_back({Contradiction::DoesNotFit, {e.event.ref}});
  }
}

// Whether nobody wrote all of them: a side of a fork and what it goes on from are one hand.
bool shared(const Branches& branches, const std::vector<EntryRef>& sides) {
  for (std::size_t i = 1; i < sides.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      if (!one_line(branches, sides[k].device, sides[i].device)) return true;
  return false;
}

// Keeps groups of entries that more than one tablet has a part in.
template <class Groups>
void keep_shared(const Farm& farm, const Groups& groups, Contradiction what,
                 std::vector<Contradicted>& found) {
  for (const auto& group : groups) {
    std::vector<EntryRef> sides = group.second;
    std::sort(sides.begin(), sides.end());
    if (shared(farm.branches, sides)) found.push_back({what, std::move(sides)});
  }
}

void find_treated_twice(const Farm& farm, std::vector<Contradicted>& found) {
  std::map<std::pair<ColonyId, std::int64_t>, std::vector<EntryRef>> settings;
  for (const auto& [id, walk] : farm.walks)
    for (const Stop& stop : walk.stops)
      for (const Treatment& t : stop.treatments)
        settings[{stop.colony, days(local_date(t.set_at)).time_since_epoch().count()}].push_back(
            t.entry);
  keep_shared(farm, settings, Contradiction::TreatedTwice, found);
}

// All entries that added a yard or colony which is there, by its id.
template <class Kind, class IdOf>
auto added(const Farm& farm, IdOf id_of) {
  std::map<std::remove_cvref_t<decltype(id_of(std::declval<Kind>()))>, std::vector<Entry>> all;
  farm.log.each<Kind>([&](const Entry& e) {
    if (e.counts()) all[id_of(std::get<Kind>(e.event.body))].push_back(e);
  });
  return all;
}

template <class Kind, class Added>
void find_said_twice(const Farm& farm, const Added& all, std::vector<Contradicted>& found) {
  for (const auto& [id, entries] : all)
    for (std::size_t i = 1; i < entries.size(); ++i) {
      const auto said = [](const Entry& e) -> const Kind& { return std::get<Kind>(e.event.body); };
      std::vector<EntryRef> sides = {entries[0].event.ref, entries[i].event.ref};
      if (!contradict(said(entries[0]), said(entries[i])) || !shared(farm.branches, sides))
        continue;
      std::sort(sides.begin(), sides.end());
      found.push_back({Contradiction::SaidTwice, std::move(sides)});
    }
}

// Two things of one name; one that was added twice is one.
void find_named_twice(const Farm& farm, std::vector<Contradicted>& found) {
  std::map<std::pair<YardId, std::string>, std::vector<EntryRef>> names;
  const auto yards = added<YardAdded>(farm, [](const YardAdded& e) { return e.yard; });
  const auto colonies = added<ColonyAdded>(farm, [](const ColonyAdded& e) { return e.colony; });
  for (const auto& [id, entries] : yards)
    if (const Yard& yard = farm.yards.at(id); !yard.lost)
      names[{YardId{}, yard.name}].push_back(entries.front().event.ref);
  for (const auto& [id, entries] : colonies)
    if (const Colony& colony = farm.colonies.at(id); !colony.lost)
      names[{colony.yard, colony.name}].push_back(entries.front().event.ref);
  keep_shared(farm, names, Contradiction::NamedTwice, found);
  find_said_twice<YardAdded>(farm, yards, found);
  find_said_twice<ColonyAdded>(farm, colonies, found);
}

void find_forked(const Farm& farm, std::vector<Contradicted>& found) {
  std::map<std::pair<DeviceId, std::int64_t>, std::vector<EntryRef>> forks;
  for (const Branch& b : farm.branches) forks[{b.after, b.from}].push_back({b.id, b.from});
  for (auto& [at, sides] : forks) found.push_back({Contradiction::Forked, std::move(sides)});
}

std::set<std::vector<EntryRef>> settled(const Farm& farm) {
  std::set<std::vector<EntryRef>> sets;
  farm.log.each<ContradictionSettled>([&](const Entry& e) {
    if (!e.counts()) return;
    std::vector<EntryRef> sides = std::get<ContradictionSettled>(e.event.body).entries;
    std::sort(sides.begin(), sides.end());
    sets.insert(std::move(sides));
  });
  return sets;
}

// "3f9a1c20-17 at 19:40, A3: 2 g dihydrate set"
std::string side(const EntryRef& ref, const Farm& farm) {
  const EntryHandle e = find_entry(farm, ref);
  if (e == nullptr) return short_ref(ref);
  return fmt::format("entry {} of {} {}, {}", short_ref(ref), iso_date(local_date(e->event.stamp)),
                     clock_time(e->event.stamp), describe(e->event.body, farm));
}

// "3f9a1c20: 12 entries from 10 on, 2026-08-14 19:40 to 2026-08-16 20:05"
std::string forked_side(const EntryRef& first, const Farm& farm) {
  const ForkSide s = side_of(farm, first.device);
  const auto when = [](const Stamp& at) { return iso_date(local_date(at)) + " " + clock_time(at); };
  return fmt::format("{}: {} from {} on, {} to {}", short_device(s.id),
                     counted(s.entries, "entry", "entries"), s.from, when(s.begin), when(s.end));
}

std::string forked_words(const Contradicted& c, const Farm& farm) {
  std::string sides;
  for (const EntryRef& ref : c.sides) sides += (sides.empty() ? "" : "; ") + forked_side(ref, farm);
  return fmt::format("Copies of tablet {} were both written on, and both sides count: {}.",
                     short_device(find_branch(farm.branches, c.sides.front().device)->device),
                     sides);
}

}  // namespace

std::vector<Contradicted> contradictions(const Farm& farm) {
  std::vector<Contradicted> found;
  find_misfits(farm, found);
  if (farm.last_seq.size() > 1) {
    find_treated_twice(farm, found);
    find_named_twice(farm, found);
    find_forked(farm, found);
  }
  if (found.empty()) return found;
  const auto done = settled(farm);
  std::erase_if(found, [&](const Contradicted& c) { return done.contains(c.sides); });
  std::sort(found.begin(), found.end(), [](const Contradicted& a, const Contradicted& b) {
    return std::tie(a.sides, a.what) < std::tie(b.sides, b.what);
  });
  return found;
}

std::string words(const Contradicted& c, const Farm& farm) {
  assert(!c.sides.empty());
  if (c.what == Contradiction::Forked) return forked_words(c, farm);
  std::string sides;
  for (const EntryRef& ref : c.sides) sides += (sides.empty() ? "" : "; ") + side(ref, farm);
  switch (c.what) {
    case Contradiction::DoesNotFit: {
      const EntryHandle e = find_entry(farm, c.sides.front());
      return fmt::format(
          "Does not fit with {}, and does not count: {}. {}",
          farm.last_seq.size() > 1 ? "what another tablet entered" : "the entries before it", sides,
          e == nullptr ? "" : sentence(e->fallen));
    }
    case Contradiction::TreatedTwice:
      return fmt::format("Two tablets gave one colony vapor on one day: {}.", sides);
    case Contradiction::CorrectedTwice:
      return fmt::format("Two corrections of one entry, of which the first one holds: {}.", sides);
    case Contradiction::StruckUnread:
      return fmt::format(
          "Another tablet had gone on with what this struck, which had not been read there; so it "
          "does not take effect: {}. If it should all the same, strike it again.",
          sides);
    case Contradiction::NamedTwice:
      return fmt::format("Two tablets added the same name: {}.", sides);
    case Contradiction::SaidTwice:
      return fmt::format("Two tablets entered one thing, of which the first words hold: {}.",
                         sides);
    case Contradiction::Forked:
      break;
  }
  return sides;
}

}  // namespace engine
