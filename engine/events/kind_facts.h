// engine/events/kind_facts.h -- what the program may ask about a kind of entry without naming it.
//
// Each kind in events_*.h states these facts as kFacts, beside its fields. No fact has a default: a
// kind that leaves one out does not compile (Stated). Code that acts on a fact names the member
// that goes with it (`if constexpr (Kind::kFacts.brings == Brings::Lot) return e.lot`), so a fact
// without its member does not compile either; event.cpp asserts the rest.
#pragma once
#include <concepts>
#include <cstdint>

#include "engine/events/refusal.h"

namespace engine {

// A member that no initialiser can leave out.
template <class T>
class Stated {
 public:
  Stated() = delete;
  template <std::same_as<T> U>
  constexpr Stated(U value) : value_(value) {}
  constexpr operator T() const { return value_; }

 private:
  T value_;
};

// A set of refusals; {Refusal::None} is the empty one.
class Refusals {
 public:
  Refusals() = delete;
  template <std::same_as<Refusal>... Each>
  requires(sizeof...(Each) > 0) constexpr Refusals(Each... each)
      : bits_(((std::uint64_t{1} << static_cast<unsigned>(each)) | ...)) {}
  [[nodiscard]] constexpr bool has(Refusal why) const {
    return why != Refusal::None && (bits_ >> static_cast<unsigned>(why) & 1) != 0;
  }
  [[nodiscard]] constexpr bool any() const { return bits_ != 1; }

 private:
  static_assert(enum_names(Refusal{}).size() <= 64);
  std::uint64_t bits_;
};

enum class Says {
  Fact,        // something happened or came to be: no strike of another entry may take it away
  Detail,      // a detail of such a thing, a plan or a setting: it may fall with what it belongs to
  Loss,        // a detail: a yard or colony is gone, under the very id that is named
  Join,        // two things that were entered twice are one
  Strike,      // another entry does not hold
  Correction,  // another entry does not hold, and these words hold in its place
  TakingBack,  // a strike or correction does not hold
  Reading,     // the tablet, or its keeper, has read entries of others
};

// What a strike of the entry has to undo.
enum class Leaves {
  Words,  // the entry stands in the log and changes nothing else
  Row,    // one row of a list in the state, on which no other entry stands
  State,  // other entries may stand on it: the log is folded again
};

// What other entries can name because of the entry (things.h).
enum class Brings { Nothing, Yard, Colony, Kit, Lot, Walk };

enum class InWalk {
  No,
  Opens,
  Step,            // a step of a walk under way
  StepAfterClose,  // possible after the walk was closed too
  Late,            // entered afterwards, into a walk that is closed or that this makes
};

// Which member says in which yard it was.
enum class YardIn { Nothing, Yard, YardOrColony, To, Walk, Colony, FirstColony, Course, Entry };

// Which member says which colonies it is about.
enum class ColoniesIn { Nothing, Colony, Colonies, Joined, Entry };

// Which appointments for rounds, counts and come-backs may be others because of it.
enum class Moves { Nothing, OfItsYard, OfItsCourses, All };

// What the keeper calls one entry of the kind, and many.
struct Noun {
  constexpr Noun(const char* for_one, const char* for_many) : one(for_one), many(for_many) {}
  const char* one;
  const char* many;
};
inline constexpr Noun kOtherEntry{"other entry", "other entries"};

struct KindFacts {
  Stated<Says> says;
  Stated<Leaves> leaves;
  Stated<Brings> brings;
  Stated<InWalk> walk;
  Stated<YardIn> yard;
  Stated<ColoniesIn> colonies;
  Stated<Moves> moves;
  Stated<bool> correctable;  // a kind of ReplacementBody
  Stated<bool> in_register;  // the treatment register has rows for it
  // Once on record it stands against these, whatever was struck or taken in since. A record that is
  // no Loss also stands against a yard or colony that was lost.
  Refusals stands_against;
  // It stands against these while a part of what it names is there (on_record.cpp).
  Refusals stands_in_part;
  Noun noun;

  [[nodiscard]] constexpr bool is_fact() const {
    return says == Says::Fact || says == Says::Correction || says == Says::TakingBack;
  }
  // Neither can be struck.
  [[nodiscard]] constexpr bool is_strike() const {
    return says == Says::Strike || says == Says::TakingBack;
  }
  // Says nothing but what holds of other entries.
  [[nodiscard]] constexpr bool is_about_another() const {
    return is_strike() || says == Says::Correction;
  }
  [[nodiscard]] constexpr bool is_join() const { return says == Says::Join; }
  [[nodiscard]] constexpr bool is_step() const {
    return walk == InWalk::Step || walk == InWalk::StepAfterClose;
  }
};

// Of the details that concern the outfit and no yard of its own.
inline constexpr KindFacts kOfTheOutfit{.says = Says::Detail,
                                        .leaves = Leaves::State,
                                        .brings = Brings::Nothing,
                                        .walk = InWalk::No,
                                        .yard = YardIn::Nothing,
                                        .colonies = ColoniesIn::Nothing,
                                        .moves = Moves::Nothing,
                                        .correctable = false,
                                        .in_register = false,
                                        .stands_against = {Refusal::None},
                                        .stands_in_part = {Refusal::None},
                                        .noun = kOtherEntry};

// Of the steps of a walk that are about none of its colonies.
inline constexpr KindFacts kOfTheWalk{.says = Says::Detail,
                                      .leaves = Leaves::State,
                                      .brings = Brings::Nothing,
                                      .walk = InWalk::Step,
                                      .yard = YardIn::Walk,
                                      .colonies = ColoniesIn::Nothing,
                                      .moves = Moves::Nothing,
                                      .correctable = false,
                                      .in_register = false,
                                      .stands_against = {Refusal::None},
                                      .stands_in_part = {Refusal::None},
                                      .noun = kOtherEntry};

// Of the steps of a walk at one of its colonies that bring nothing new with them.
inline constexpr KindFacts kAtColony{.says = Says::Detail,
                                     .leaves = Leaves::State,
                                     .brings = Brings::Nothing,
                                     .walk = InWalk::Step,
                                     .yard = YardIn::Walk,
                                     .colonies = ColoniesIn::Colony,
                                     .moves = Moves::OfItsYard,
                                     .correctable = false,
                                     .in_register = false,
                                     .stands_against = {Refusal::None},
                                     .stands_in_part = {Refusal::None},
                                     .noun = kOtherEntry};

// Of the details of one colony.
inline constexpr KindFacts kOfTheColony{.says = Says::Detail,
                                        .leaves = Leaves::State,
                                        .brings = Brings::Nothing,
                                        .walk = InWalk::No,
                                        .yard = YardIn::Colony,
                                        .colonies = ColoniesIn::Colony,
                                        .moves = Moves::Nothing,
                                        .correctable = false,
                                        .in_register = false,
                                        .stands_against = {Refusal::None},
                                        .stands_in_part = {Refusal::None},
                                        .noun = kOtherEntry};

// Of what a tablet or its keeper read, decided or said of tablets: it stands in the log as it was
// written, and a strike of it changes nothing.
inline constexpr KindFacts kOfReading{.says = Says::Reading,
                                      .leaves = Leaves::Words,
                                      .brings = Brings::Nothing,
                                      .walk = InWalk::No,
                                      .yard = YardIn::Nothing,
                                      .colonies = ColoniesIn::Nothing,
                                      .moves = Moves::Nothing,
                                      .correctable = false,
                                      .in_register = false,
                                      .stands_against = {Refusal::None},
                                      .stands_in_part = {Refusal::None},
                                      .noun = kOtherEntry};

}  // namespace engine
