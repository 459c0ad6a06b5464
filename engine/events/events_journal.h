// engine/events/events_journal.h -- what is said of entries: struck, put in order, settled.
#pragma once
#include <cassert>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/events/event_fields.h"
#include "engine/events/events_kit.h"
#include "engine/events/events_late.h"
#include "engine/events/events_outfit.h"
#include "engine/events/events_season.h"
#include "engine/events/events_walk.h"

namespace engine {

// Takes an entry back; it stays readable, with the reason.
struct EntryStruck {
  static constexpr const char* kKind = "entry_struck";
  static constexpr KindFacts kFacts{.says = Says::Strike,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Entry,
                                    .colonies = ColoniesIn::Entry,
                                    .moves = Moves::All,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  EntryRef entry;
  std::string reason;
  DUSKWALK_FIELDS(f("entry", s.entry), f("reason", s.reason))
};

// What an entry should have said: a body of the kind it was. Never without one.
using ReplacementBody =
    std::variant<NoteWritten, VaporizerSet, ColonyPassedOver, EnteredLate, CountTaken, BroodNoted,
                 OtherTreatmentGiven, StockReceived, AcidDisposed>;
class Replacement {
 public:
  Replacement();
  explicit Replacement(ReplacementBody body);
  [[nodiscard]] const ReplacementBody& body() const {
    assert(boxed_ != nullptr);
    return *boxed_;
  }

 private:
  // Shared and apart: corrections are rare, and every event is as large as the largest body.
  std::shared_ptr<const ReplacementBody> boxed_;  // null only when moved from
};

// Strikes an entry and says in the same breath what it should have said. That holds in its place:
// from then on, with the time of the struck entry. A correction can be struck or corrected itself.
struct EntryCorrected {
  static constexpr const char* kKind = "entry_corrected";
  static constexpr KindFacts kFacts{.says = Says::Correction,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Entry,
                                    .colonies = ColoniesIn::Entry,
                                    .moves = Moves::All,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  EntryRef entry;
  std::string reason;
  Replacement instead{};
  DUSKWALK_FIELDS(f("entry", s.entry), f("reason", s.reason), f("instead", s.instead))
};

// Takes a strike or a correction back: what it struck counts again as it was said.
struct StrikeTakenBack {
  static constexpr const char* kKind = "strike_taken_back";
  static constexpr KindFacts kFacts{.says = Says::TakingBack,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Entry,
                                    .colonies = ColoniesIn::Entry,
                                    .moves = Moves::All,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  EntryRef strike;  // the strike or correction, not what it struck
  std::string reason;
  DUSKWALK_FIELDS(f("strike", s.strike), f("reason", s.reason))
};

// This tablet has read entries of others: what it enters from now on comes after them, whatever its
// own wall clock says (engine/farm/common_clock.h). `read` names of each other tablet the last
// entry that was read, where that is another one than this tablet's last ClockFollowed named.
// Earlier versions did not write it: for them everything up to that clock counts as read.
struct ClockFollowed {
  static constexpr const char* kKind = "clock_followed";
  static constexpr KindFacts kFacts = kOfReading;
  std::int64_t after_utc_ms = 0;
  std::optional<std::vector<EntryRef>> read{};
  DUSKWALK_FIELDS(f("after_utc_ms", s.after_utc_ms), f("read", s.read))
};

// The keeper has looked at what several tablets say, and says what holds.
struct ContradictionSettled {
  static constexpr const char* kKind = "contradiction_settled";
  static constexpr KindFacts kFacts = kOfReading;
  std::vector<EntryRef> entries;  // all its sides
  std::string decision;
  DUSKWALK_FIELDS(f("entries", s.entries), f("decision", s.decision))
};

}  // namespace engine
