// What speaks against notes, and against what is said of other entries.
#include <algorithm>

#include "engine/farm/fold.h"
#include "engine/farm/why_not_kinds.h"

namespace engine {

Refusal why_not(const Farm& f, const NoteWritten& e) {
  if (e.text.empty()) return Refusal::NameMissing;
  if (e.yard && find(f.yards, *e.yard) == nullptr) return Refusal::NoSuchYard;
  return e.colony ? colony_known(f, *e.colony) : Refusal::None;
}

namespace {

bool within(const std::optional<int>& n, int low, int high) {
  return !n || (*n >= low && *n <= high);
}
// Two small letters (ISO 639-1).
bool is_language(std::string_view s) {
  return s.size() == 2 &&
         std::all_of(s.begin(), s.end(), [](char c) { return c >= 'a' && c <= 'z'; });
}

bool one_to_999(const std::optional<int>& n) { return within(n, 1, 999); }

}  // namespace

Refusal why_not(const Farm&, const SetupChanged& e) {
  if (e.rules && !what_is_wrong(*e.rules).empty()) return Refusal::OutOfRange;
  if (e.thresholds && !what_is_wrong(*e.thresholds).empty()) return Refusal::OutOfRange;
  if (!one_to_999(e.clean_every) || !one_to_999(e.cartridge_hours)) return Refusal::OutOfRange;
  if (!within(e.speech_speed, 80, 400) || !within(e.sound_volume, 1, 100))
    return Refusal::OutOfRange;
  if (!within(e.brightness, 5, 100) || !within(e.half_cup_bees, 50, 1000))
    return Refusal::OutOfRange;
  if (e.language && !is_language(*e.language)) return Refusal::OutOfRange;
  if (e.pace && !what_is_wrong(*e.pace).empty()) return Refusal::OutOfRange;
  return place_in_range(e.home) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm&, const ClockFollowed& e) {
  if (e.after_utc_ms < 0) return Refusal::OutOfRange;
  const bool numbers = !e.read || std::all_of(e.read->begin(), e.read->end(),
                                              [](const EntryRef& ref) { return ref.seq > 0; });
  return numbers ? Refusal::None : Refusal::OutOfRange;
}

namespace {

constexpr std::size_t kHexOfKey = 64, kHexOfWords = 20;  // digits

bool is_hex(std::string_view text, std::size_t digits) {
  return text.size() == digits && text.find_first_not_of("0123456789abcdef") == text.npos;
}

}  // namespace

Refusal why_not(const Farm&, const TabletKeyed& e) {
  return is_hex(e.key, kHexOfKey) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm&, const TabletTrusted& e) {
  const bool key = !e.key || is_hex(*e.key, kHexOfKey) || is_hex(*e.key, kHexOfWords);
  const bool both = e.tablet.has_value() == e.through.has_value();
  return key && both && (!e.through || *e.through > 0) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm&, const TabletRefused& e) {
  if (e.tablet.empty()) return Refusal::NameMissing;
  const bool key = !e.key || is_hex(*e.key, kHexOfKey);
  return key && e.from > 0 ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const SetupKept& e) {
  for (const EntryRef& ref : e.entries)
    if (!f.log.find(ref)) return Refusal::NoSuchEntry;
  return e.entries.empty() ? Refusal::NoSuchEntry : Refusal::None;
}

Refusal why_not(const Farm& f, const ContradictionSettled& e) {
  for (const EntryRef& ref : e.entries)
    if (!f.log.find(ref)) return Refusal::NoSuchEntry;
  if (e.entries.empty()) return Refusal::NoSuchEntry;
  return e.decision.empty() ? Refusal::NameMissing : Refusal::None;
}

namespace {

// An entry that still stands, so that it can be struck.
Refusal stands_there(const Farm& f, const EntryRef& ref) {
  const auto at = f.log.find(ref);
  if (!at) return Refusal::NoSuchEntry;
  const Entry entry = f.log.copy(*at);
  if (facts_of(entry.event.body).is_strike()) return Refusal::StrikesAStrike;
  return entry.struck ? Refusal::AlreadyStruck : Refusal::None;
}

// Of words that hold in the place of others: what can be said of them whatever stands around them.
Refusal could_be(const Farm& f, const VaporizerSet& e) {
  if (e.dose.mg <= 0 || !boxes_in_range(e.brood_boxes)) return Refusal::OutOfRange;
  if (e.lot && find(f.lots, *e.lot) == nullptr) return Refusal::NoSuchLot;
  return e.battery ? kit_of_sort(f, *e.battery, KitSort::Battery) : Refusal::None;
}
Refusal could_be(const Farm&, const ColonyPassedOver&) { return Refusal::None; }
// It stands in the place of the count that has its id now.
Refusal could_be(const Farm& f, CountTaken e) {
  e.count.reset();
  return why_not(f, e);
}
Refusal could_be(const Farm& f, const NoteWritten& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const EnteredLate& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const BroodNoted& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const OtherTreatmentGiven& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const StockReceived& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const AcidDisposed& e) { return why_not(f, e); }

// The entry in whose place the words of corrections hold.
Entry first_said(const Farm& f, const Entry& entry) {
  const auto* c = std::get_if<EntryCorrected>(&entry.event.body);
  const auto at = c == nullptr ? std::nullopt : f.log.find(c->entry);
  return at ? first_said(f, f.log.copy(*at)) : entry;
}

// Brood is noted in the colonies themselves, so they must have been there by then.
Refusal there_by_then(const Farm& f, const EntryRef& entry, const BroodNoted& words) {
  const std::size_t place = first_place(f.log, *f.log.find(entry));
  for (const ColonyId colony : words.colonies)
    if (!colony_came_before(f.log, place, colony)) return Refusal::NoSuchColony;
  return Refusal::None;
}

}  // namespace

Refusal why_not_corrected(const Farm& f, const EntryCorrected& c) {
  if (const Refusal r = stands_there(f, c.entry); r != Refusal::None) return r;
  const Entry entry = f.log.copy(*f.log.find(c.entry));
  if (!corrects_alike(entry, c.instead)) return Refusal::NotCorrectable;
  if (const auto* late = std::get_if<EnteredLate>(&c.instead.body()))
    return why_not_late(f, first_said(f, entry).event, *late);
  if (const auto* brood = std::get_if<BroodNoted>(&c.instead.body()))
    if (const Refusal r = there_by_then(f, c.entry, *brood); r != Refusal::None) return r;
  return std::visit([&](const auto& body) { return could_be(f, body); }, c.instead.body());
}

Refusal why_not(const Farm& f, const EntryStruck& e) { return stands_there(f, e.entry); }

// Only the strike that holds can be taken back.
Refusal why_not(const Farm& f, const StrikeTakenBack& e) {
  const auto at = f.log.find(e.strike);
  const auto said = at ? strike_in(f.log.copy(*at).event.body) : std::nullopt;
  const auto struck = said ? f.log.find(said->entry) : std::nullopt;
  if (!struck) return Refusal::NoSuchEntry;
  const Entry entry = f.log.copy(*struck);
  return entry.struck && entry.struck->by == e.strike ? Refusal::None : Refusal::NotStruck;
}

}  // namespace engine
