// engine/farm/farm.h -- the whole farm as a value, and the fold of all events into it.
//
// Pure: the same events in the same order give the same Farm, to the bit, in every build
// (state_hash). Entries are never dropped: a struck one stays in the log as struck, and one that no
// longer fits because of that stays as fallen, with the refusal it would meet now. A corrected one
// is struck by its correction, whose words hold in its place (holds()).
#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "engine/core/lists.h"
#include "engine/events/branches.h"
#include "engine/events/event.h"
#include "engine/events/log.h"
#include "engine/events/refusal.h"
#include "engine/farm/counts.h"
#include "engine/farm/walks.h"

namespace engine {

struct Yard {
  YardId id;
  std::string name;
  std::optional<Place> place;
  std::string zone;
  std::string note;
  bool lost = false;
  std::optional<Spot> gate{};  // none: never said
  std::string address{}, access{}, landowner{}, private_note{};
};

// Vapor a colony got on one local day, in all its settings.
struct VaporGiven {
  Date on{};
  Mass sum;
  Stamp last;
  int times = 0;
};

// A setting of the vaporizer, as far as it matters long after.
struct Vaporized {
  Date on{};        // local
  KitId vaporizer;  // empty: entered afterwards
};

// Another treatment, whose words are in the log.
struct OtherGiven {
  EntryRef entry;
  Date on{};
};

struct BroodNote {
  Date on{};
  BroodFact what = BroodFact::BroodSeen;
};

struct Colony {
  ColonyId id;
  YardId yard;
  std::string name;
  int brood_boxes = 1;
  bool supers_on = false;
  std::optional<Spot> spot;
  int order = 0;  // in its yard; ties go by id
  std::string note;
  bool lost = false;
  std::string lost_why;
  // The walk its reasons to come back stem from: the last one that treated it, passed it over, or
  // ended without reaching it while it had no older reasons; none once they were settled.
  std::optional<WalkId> last_walk;
  std::optional<VaporGiven> vapor;  // on the last day it got any
  std::vector<BroodNote> brood;     // by day; of one day, as they were entered
  ColonySort sort = ColonySort::Hive;
  bool queenless = false;
  std::vector<Leak> leaks{};
  std::optional<Date> board_in{};  // the last sticky board that went in
};

// A vaporizer, cloth, battery or respirator, with what its own sort needs. Without a name it is a
// battery that corrected words name before the entry that brings it.
struct KitItem {
  KitId id;
  KitSort sort = KitSort::Cloth;
  std::string name;
  bool retired = false;
  std::optional<KitId> battery;          // vaporizer: the one in it
  int settings_since_clean = 0;          // vaporizer
  int settings_since_charge = 0;         // battery
  Mass vaporized_since_charge;           // battery
  bool needs_charge = false;             // battery: it came out of a vaporizer since it was charged
  std::string cartridge;                 // respirator
  std::optional<Stamp> cartridge_since;  // respirator
  std::optional<Date> cartridge_last{};  // respirator: the last day its maker lets it be used
  std::optional<Date> fit_tested{};      // respirator
  std::optional<int> watt_hours{};       // battery
};

// Without an amount received it is one that corrected words name before it is received.
struct Lot {
  LotId id;
  std::string product;
  std::string registration;
  std::string code;
  std::optional<Date> expiry;
  std::string supplier;
  std::string receipt;
  Mass received;
  Mass used;
  Mass disposed{};
  std::string supplier_address{};
  [[nodiscard]] Mass left() const { return received - used - disposed; }  // may be below zero
};

struct Course {
  CourseId id;
  YardId yard;
  std::vector<Date> rounds;
  bool ended = false;
  std::string end_reason;
  std::optional<RoundsAsked> asked{};  // none: nothing but the usual was asked
};

// Which evenings the keeper has for the bees.
struct Evenings {
  std::optional<std::vector<Weekday>> weekly;  // none: never said, every evening will do
  std::map<Date, bool> changed;                // evenings that are not like their weekday
  std::map<Date, LossWhy> lost;
};

// Between two yards, the smaller id first; the empty id is the keeper's home.
using Drive = std::pair<YardId, YardId>;

using WhenHome = std::pair<Date, HomePart>;

struct ClothLeft {
  WalkId walk;
  ColonyId colony;
};

struct Setup {
  std::string operator_name;
  std::string operator_address;
  TemperatureUnit temperature_unit = TemperatureUnit::Celsius;
  MassUnit mass_unit = MassUnit::Gram;
  Theme theme = Theme::Sun;
  std::optional<LabelRules> rules;  // none: the keeper has not chosen a label yet
  std::optional<Place> home;
  std::optional<Thresholds> thresholds;   // none: the defaults serve
  std::optional<int> clean_every;         // settings; none: common practice (engine/kit/upkeep.h)
  std::optional<int> cartridge_hours;     // none: never said, and nothing is assumed
  std::optional<Pace> pace;               // likewise
  std::optional<bool> spoken{};           // none: it is
  std::optional<int> speech_speed{};      // words a minute; none: ui/platform/speech.h decides
  std::optional<int> sound_volume{};      // 1 to 100; none: full
  std::optional<std::string> language{};  // none: the system's
  std::optional<int> brightness{};        // percent; none: as the system has it
  std::optional<int> act_key{};           // none: Space and Enter
  std::optional<int> half_cup_bees{};     // none: engine/mites knows what is usual
  std::string emergency_number{};
};

// What was set on one tablet. Another tablet's is never put in its place (engine/farm/setups.h).
struct TabletSetup {
  Setup setup;
  EntryRef offered;         // the last entry with what others may use too; number 0: there is none
  std::set<EntryRef> kept;  // such entries of others that were looked at here and are not used
};

// All that follows from the entries.
struct FarmState {
  std::map<DeviceId, TabletSetup> setups;
  std::map<YardId, Yard> yards;
  std::map<ColonyId, Colony> colonies;
  Lists<YardId, ColonyId> in_yard;       // that stand there, by id, lost ones too
  Lists<ColonyId, Vaporized> vaporized;  // as they were entered, likewise:
  Lists<ColonyId, OtherGiven> otherwise_treated;
  std::map<KitId, KitItem> kit;
  std::map<LotId, Lot> lots;
  Counts counts;
  std::map<CourseId, Course> courses;
  Evenings evenings;
  std::map<Drive, int> drive_minutes;
  std::map<WhenHome, Temperature> air_expected;  // only where somebody said
  Walks walks;
  std::map<DeviceId, WalkId> walk_under_way;
  std::map<KitId, ClothLeft> cloths_left;  // by walks that were closed before the cloth came off
};

// The state after so many entries, kept so that a strike need not begin at the first of them.
struct Snapshot {
  std::size_t entries = 0;
  std::shared_ptr<const FarmState> state;
};

struct Farm : FarmState {
  // The tablet that shows this farm, and what is set on it: no part of what is known. Of a farm
  // that no tablet shows, what is set on the only tablet there is.
  DeviceId own;
  Setup setup;
  std::map<DeviceId, std::int64_t> last_seq;
  Branches branches;  // of tablets that forked
  Log log;            // in the order the events were applied; of several tablets: together.h
  std::vector<Snapshot>
      snapshots;  // rising, the denser the nearer to the end; no part of what is known
};

// The correction that stands in the place of an entry, the last one where corrections were
// corrected; null: the entry was not corrected, or that was struck too.
[[nodiscard]] EntryHandle correction_of(const Farm& farm, const Entry& entry);
// Where the entry stands in whose place the words of a correction hold, however often it was
// corrected; of any other entry its own place. A correction that names nothing before it leads no
// further.
[[nodiscard]] std::size_t first_place(const Log& log, std::size_t place);
// What an entry says, in the form a correction has; nullopt: it cannot be corrected.
[[nodiscard]] std::optional<Replacement> words_of(const Entry& entry);

// Whether two corrections say the same, field by field.
[[nodiscard]] bool same_words(const Replacement& a, const Replacement& b);

// What holds in the place of an entry: its own words, or those of its correction. nullopt: nothing
// (struck, fallen), or something of another kind. A correction itself holds nothing: it holds in
// the place of what it corrects.
template <class Kind>
std::optional<Kind> holds(const Farm& farm, const Entry& entry) {
  const auto of_kind = [](const auto& body) {
    const Kind* said = std::get_if<Kind>(&body);
    return said == nullptr ? std::nullopt : std::optional(*said);
  };
  if (entry.counts()) return of_kind(entry.event.body);
  if constexpr (Kind::kFacts.correctable)
    if (const EntryHandle c = correction_of(farm, entry); c != nullptr && c->counts())
      return of_kind(std::get<EntryCorrected>(c->event.body).instead.body());
  return std::nullopt;
}

// Why the event cannot be entered. A strike, correction or taking back is tried on a copy first
// (engine/farm/would_fall.h), which takes as long as apply does.
[[nodiscard]] Refusal why_not(const Farm& farm, const Event& e);
// The same of an event that is on record: what an earlier version let be struck stays struck,
// whatever stood on it, so nothing is tried.
[[nodiscard]] Refusal why_not_on_record(const Farm& farm, const Event& e);

// The farm after `e`. Requires why_not_on_record(farm, e) == Refusal::None (asserted).
[[nodiscard]] Farm apply(Farm farm, const Event& e);

// A number that differs when anything in the farm differs; equal on every machine and build.
[[nodiscard]] std::uint64_t state_hash(const Farm& farm);

}  // namespace engine
