// engine/register/register.h -- the treatment register: what the law and an inspector want to read.
//
// One row for each setting of the vaporizer, each colony that a walk passed over or did not reach,
// each late entry and each other treatment. Nothing is left out: an entry that was struck (or that
// fell) keeps its row, built from the entry itself and marked; one that was corrected has a row as
// it was and one as it should have been. Fields: the union of what
// Reg. (EU) 2019/6 Art. 108, the UK Veterinary Medicines Regulations and 7 USC 6519 ask for, with
// hives as the units treated.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/register/log_index.h"
#include "engine/walk/come_back.h"

namespace engine {

enum class Outcome {
  Treated,
  ShortDwell,   // lifted before the rules' least
  ShortSeal,    // opened before the rules' least
  LeftOpen,     // lifted, and nothing closed the entrance
  LeftCovered,  // the walk was closed while the cloth lay there
  UnderWay,     // still under vapor or covered
  PassedOver,
  NotReached,
  Struck,  // the entry was taken back
  Fallen,  // it does not fit since another was taken back, or came from another tablet
};
constexpr std::array<const char*, 10> enum_names(Outcome) {
  return {"treated",   "short_dwell", "short_seal",  "left_open", "left_covered",
          "under_way", "passed_over", "not_reached", "struck",    "fallen"};
}
[[nodiscard]] const char* words(Outcome o);

struct RegisterRow {
  EntryRef entry;
  std::optional<EntryRef> corrects;      // the entry in whose place this one holds
  std::optional<EntryRef> corrected_by;  // of a struck one
  std::optional<Stamp> entered;          // when that was not when it happened
  Date date{};                           // local, or as the keeper gave it
  std::optional<Stamp> at;               // none: only the day is known
  YardId yard;
  std::string yard_name;
  ColonyId colony;
  std::string colony_name;
  std::optional<WalkId> walk;  // none: another treatment

  Method method = Method::Vapor;
  std::string label_product;  // the label rules of the walk
  std::string product;        // of the lot, else of the label rules
  std::string registration;
  std::optional<LotId> lot;  // on the shelf
  std::string lot_code;
  std::optional<Date> lot_expiry;
  bool lot_expired = false;  // on that date
  std::string supplier;
  std::string supplier_address;
  std::string receipt;

  std::optional<Mass> dose;  // on `basis`
  Basis basis = Basis::Dihydrate;
  std::optional<Mass> dihydrate_equal;  // none: the product's strength is not known
  std::optional<Mass> anhydrous_equal;
  std::string dose_text;  // other treatments, as the keeper wrote it
  bool over_label = false;
  bool supers_against_label = false;
  std::vector<std::string> against_label{};  // the label's other lines that it is against
  bool supers_unclear = false;               // supers were on, and the label profile does not say
  std::optional<int> brood_boxes;
  std::optional<bool> supers_on;
  std::optional<int> withdrawal_days;  // 0 is a number to be written; none: nothing was given
  std::optional<int> days_given;       // other treatments: how long it stayed in the hive

  std::optional<Elapsed> dwell;
  std::optional<Elapsed> seal;
  bool seal_end_inferred = false;  // from the cloth turning up on another colony
  Outcome outcome = Outcome::Treated;
  std::optional<PassReason> passed;
  std::string note;

  std::string operator_name;
  std::string operator_address;
  std::string reason;                 // for the treatment
  std::optional<Conditions> weather;  // when the walk was opened
  std::optional<Flight> flight;       // the strongest noted at this colony
  std::vector<ComeBackReason> come_back;
  std::vector<StopMishap> mishaps;

  std::optional<Struck> struck;
  Refusal fallen = Refusal::None;
  [[nodiscard]] bool counts() const { return !struck && fallen == Refusal::None; }
  [[nodiscard]] bool is_against_label() const {
    return over_label || supers_against_label || !against_label.empty();
  }
};

// All that the row is against in the label, a line each; those of `is_against_label`.
[[nodiscard]] std::vector<std::string> label_breaches(const RegisterRow& row);

// A lot on the shelf, or one that was written down by its code alone.
struct LotWanted {
  std::optional<LotId> id;
  std::string code;
  friend bool operator==(const LotWanted&, const LotWanted&) = default;
};

struct RegisterQuery {
  std::optional<Date> from, to;  // both included
  std::optional<YardId> yard;
  std::optional<ColonyId> colony{};
  std::optional<LotWanted> lot{};
  friend bool operator==(const RegisterQuery&, const RegisterQuery&) = default;
};

// Every lot that anything was given from or that was received, by code, each once.
[[nodiscard]] std::vector<LotWanted> lots_known(const Farm& farm, const LogIndex& book);
// "24-118"; the product where a lot has no code.
[[nodiscard]] std::string words(const LotWanted& lot, const Farm& farm);

// Oldest first; references to entries of the log end. The book must have read the whole log. A
// piece at a time: search.h.
[[nodiscard]] std::vector<RegisterRow> register_rows(const Farm& farm, const LogIndex& book,
                                                     const RegisterQuery& query);
[[nodiscard]] std::vector<RegisterRow> register_rows(const Farm& farm, const RegisterQuery& query);

// The day of the first entry: before it the register cannot be complete. nullopt: no entries.
[[nodiscard]] std::optional<Date> complete_from(const Farm& farm);

}  // namespace engine
