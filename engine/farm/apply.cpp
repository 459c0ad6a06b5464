// The farm after one more entry. A strike needs what comes after the struck entry folded again,
// from a snapshot near it.
#include <algorithm>
#include <cassert>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"
#include "engine/farm/snapshots.h"
#include "engine/farm/strike_marks.h"

namespace engine {
namespace {

void take_out(FarmState& f, const EntryRef& entry, const CountTaken&) { f.counts.erase(entry); }

void take_out(FarmState& f, const EntryRef& entry, const OtherTreatmentGiven& e) {
  std::erase_if(f.otherwise_treated.change(e.colony),
                [&](const OtherGiven& o) { return o.entry == entry; });
}

// Another tablet's reading of the same row, which counts when this one does not.
bool read_twice(const Farm& f, const Body& was) {
  const auto* taken = std::get_if<CountTaken>(&was);
  if (taken == nullptr || !taken->count) return false;
  for (const std::size_t place : f.log.marked()) {
    if (f.log.kind_at(place) != Log::place_of<CountTaken>()) continue;
    const Entry other = f.log.copy(place);
    if (!other.struck && std::get<CountTaken>(other.event.body).count == taken->count) return true;
  }
  return false;
}

template <class Kind>
void take_out_everywhere(Farm& f, std::size_t place, const EntryRef& ref, const Kind& said) {
  take_out(f, ref, said);
  for (Snapshot& snapshot : f.snapshots) {
    if (snapshot.entries <= place) continue;
    auto state = std::make_shared<FarmState>(*snapshot.state);
    take_out(*state, ref, said);
    snapshot.state = std::move(state);
  }
}

// The row of the entry leaves the state and the snapshots.
void take_row_out(Farm& f, std::size_t place, const Event& was) {
  assert(facts_of(was.body).leaves == Leaves::Row);
  std::visit(
      [&]<class Kind>(const Kind& said) {
        if constexpr (Kind::kFacts.leaves == Leaves::Row)
          take_out_everywhere(f, place, was.ref, said);
      },
      was.body);
}

// From where the farm changes when what holds at `place` does: from the first words there, or from
// corrected words before it that wait for what is brought there.
std::size_t first_changed(const Log& log, std::size_t place) {
  const auto thing = thing_to_wait_for(log.copy(place).event.body);
  const std::set<Thing> things = thing ? std::set{*thing} : std::set<Thing>{};
  return first_waiting(log, things, first_place(log, place));
}

// A correction that was void stays so, struck or not.
bool is_void(const Log& log, const Entry& e) {
  const auto* c = std::get_if<EntryCorrected>(&e.event.body);
  if (c == nullptr || e.fallen == Refusal::None) return false;
  const auto corrected = log.find(c->entry);
  const auto struck = corrected ? log.copy(*corrected).struck : std::nullopt;
  return !struck || struck->by != e.event.ref;
}

// A correction, and a strike of one, change the farm from where the first words stand.
Farm strike(Farm f, const Event& by, const EntryStruck& struck) {
  const std::size_t place = *f.log.find(struck.entry);
  const Entry was = f.log.copy(place);
  assert(!was.struck);
  const bool stays_void = is_void(f.log, was);
  f.log.set_struck(place, Struck{by.ref, struck.reason, by.stamp});
  if (stays_void) f.log.set_fallen(place, was.fallen);
  if (const std::size_t joined = mark_joins(f.log); joined < f.log.size()) {
    const std::size_t changed = std::min(joined, first_changed(f.log, place));
    return fold_again(std::move(f), changed);
  }
  const KindFacts& facts = facts_of(was.event.body);
  if (facts.is_join()) return f;
  if (facts.is_about_another() || facts_of(by.body).says == Says::Correction) {
    const std::size_t first = first_changed(f.log, place);
    return fold_again(std::move(f), first);
  }
  if (!was.counts() || facts.leaves == Leaves::Words) return f;
  if (facts.leaves == Leaves::Row && !read_twice(f, was.event.body)) {
    take_row_out(f, place, was.event);
    return f;
  }
  const std::size_t first = first_changed(f.log, place);
  return fold_again(std::move(f), first);
}

// What the strike struck is not, and a correction that was void behind it may still be.
Farm take_back(Farm f) {
  const std::size_t first = mark_strikes_and_joins(f);
  return fold_again(std::move(f), first);
}

// The last entry says that two are one.
Farm join_last(Farm f) {
  const std::size_t changed = mark_joins(f.log);
  return fold_again(std::move(f), changed);
}

bool corrections_fell(const Log& log) {
  const auto marked = log.marked();
  return std::any_of(marked.begin(), marked.end(), [&](std::size_t place) {
    return log.kind_at(place) == Log::place_of<EntryCorrected>() && log.has_fallen(place);
  });
}

// The last entry of the log, which strikes nothing. Corrected words may have waited for it.
Farm add(Farm f, const Event& e) {
  const std::size_t last = f.log.size() - 1;
  if (thing_to_wait_for(e.body) && corrections_fell(f.log)) {
    const std::size_t first = first_changed(f.log, last);
    if (first < last) return fold_again(std::move(f), first);
  }
  fold_in(f, e);
  return f;
}

}  // namespace

Farm fold_again(Farm f, std::size_t changed) {
  while (!f.snapshots.empty() && f.snapshots.back().entries > changed) f.snapshots.pop_back();
  const bool anew = f.snapshots.empty();
  const std::size_t from = anew ? 0 : f.snapshots.back().entries;
  assert(from <= changed && from <= f.log.size());
  static_cast<FarmState&>(f) = anew ? FarmState{} : *f.snapshots.back().state;
  // Only the last snapshots would stay: where they will not, none is made.
  const std::size_t end = f.log.size();
  std::size_t next = from + kSnapshotsApart;
  f.log.scan(from, [&](std::size_t i, const Entry& entry) {
    if (i == next) {
      add_snapshot(f, i);
      next = i + std::max(kSnapshotsApart, (end - i) / 2);
    }
    const KindFacts& facts = facts_of(entry.event.body);
    if (facts.is_about_another() || facts.is_join()) return;
    if (entry.struck) return fold_corrected(f, i, entry);
    f.log.set_fallen(i, fold_if_it_fits(f, entry.event));
  });
  show_own_setup(f);
  return f;
}

Farm apply(Farm farm, const Event& e) {
  assert(why_not_on_record(farm, e) == Refusal::None);
  farm.last_seq[e.ref.device] = e.ref.seq;
  farm.log.push_back(e);
  if (const auto struck = strike_in(e.body))
    farm = strike(std::move(farm), e, *struck);
  else if (facts_of(e.body).says == Says::TakingBack)
    farm = take_back(std::move(farm));
  else if (facts_of(e.body).is_join())
    farm = join_last(std::move(farm));
  else
    farm = add(std::move(farm), e);
  add_snapshot(farm, farm.log.size());
  return farm;
}

}  // namespace engine
