// engine/events/event.h -- everything that can happen, as values.
//
// An Event is who (device and its own running number), when (Stamp) and what (one of the kinds in
// events_*.h). Each kind lists its fields once, in fields(); the journal's JSON, the state hash and
// the tests all read that list. Beside it stand the kind's facts (kind_facts.h). A kind's name and
// its field names are part of the journal's format: add optional fields, never rename or remove
// one.
#pragma once
#include <optional>
#include <string_view>
#include <variant>

#include "engine/core/instant.h"
#include "engine/events/events_courses.h"
#include "engine/events/events_journal.h"
#include "engine/events/events_kit.h"
#include "engine/events/events_late.h"
#include "engine/events/events_outfit.h"
#include "engine/events/events_places.h"
#include "engine/events/events_season.h"
#include "engine/events/events_tablets.h"
#include "engine/events/events_walk.h"

namespace engine {

using AnyKind = std::variant<
    YardAdded, YardChanged, YardLost, ColonyAdded, ColonyChanged, ColonyMoved, ColonyLost, KitAdded,
    KitChanged, BatteryChanged, BatteryCharged, VaporizerCleaned, FilterChanged, StockReceived,
    AcidDisposed, CountTaken, CoursePlanned, CourseChanged, CourseEnded, CoursesPlanned,
    FreeEveningsSet, EveningChanged, EveningLost, DriveTimeSet, AirExpected, BroodNoted, WalkOpened,
    ProtectionConfirmed, VaporizerSet, ColonyCovered, ColonyUncovered, ColonyPassedOver, BeesFlying,
    Mishap, WalkPaused, WalkResumed, WalkClosed, EnteredLate, ComeBackSettled, OtherTreatmentGiven,
    NoteWritten, SetupChanged, EntryStruck, EntryCorrected, ClockFollowed, ContradictionSettled,
    StrikeTakenBack, SetupKept, YardsJoined, ColoniesJoined, TabletKeyed, TabletTrusted,
    TabletRefused, VaporHalted, VaporResumed, BoardPutIn>;

// One of them. A class of its own so that copying, moving and ending it is compiled once: it is
// done everywhere, for each of the kinds.
class Body : public AnyKind {
 public:
  using AnyKind::AnyKind;
  Body();
  Body(const Body& other);
  Body(Body&& other) noexcept;
  Body& operator=(const Body& other);
  Body& operator=(Body&& other) noexcept;
  ~Body();
};

struct Event {
  EntryRef ref;
  Stamp stamp;
  Body body;
};

// The kind's name as it stands in the journal.
[[nodiscard]] const char* kind(const Body& body);

// The facts of the body's kind, and of the kind at that place in AnyKind.
[[nodiscard]] const KindFacts& facts_of(const Body& body);
[[nodiscard]] const KindFacts& facts_of_kind(std::size_t place);

// An empty body of that kind, or nullopt when no such kind exists.
[[nodiscard]] std::optional<Body> body_of_kind(std::string_view kind);

// The right words of a correction as an entry of their own would say them, and the other way
// round; nullopt: entries of that kind are struck and entered anew, not corrected.
[[nodiscard]] Body body_of(const Replacement& instead);
[[nodiscard]] std::optional<Replacement> replacement_of(const Body& body);

}  // namespace engine
