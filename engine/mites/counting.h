// engine/mites/counting.h -- what a count of mites says, and how surely.
//
// Rates are mites per 100 bees. A rate never travels without its limits. Confidence, alpha and beta
// lie strictly between 0 and 1; a wash has at least one bee and no negative count.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "engine/mites/distributions.h"

namespace engine::mites {

struct Wash {
  std::int64_t mites = 0;
  std::int64_t bees = 0;  // at least 1
};

// Garwood's limits of a Poisson mean take over above 30 mites per 100 bees: several mites then sit
// on one bee, and "bees with a mite" is no longer what is counted.
enum class WashMethod { ClopperPearson, Garwood };
constexpr std::array<const char*, 2> enum_names(WashMethod) {
  return {"clopper_pearson", "garwood"};
}

struct WashEstimate {
  WashMethod method = WashMethod::ClopperPearson;
  double per_100 = 0;
  double low = 0, high = 0;  // per 100 bees
};
[[nodiscard]] WashEstimate estimate(const Wash& wash, double conf = 0.95);

// Treat: a colony below the threshold would show so many mites with chance alpha at most. Watch:
// one above it would show so few with chance beta at most. Between the two a count decides nothing.
enum class Decision { Treat, Watch, Recount };
constexpr std::array<const char*, 3> enum_names(Decision) { return {"treat", "watch", "recount"}; }

struct Cutoff {
  double per_100 = 3;   // the threshold, above 0 and below 100; the keeper's to set
  double alpha = 0.10;  // chance of treating a colony that is below
  double beta = 0.10;   // chance of missing one that is above; a miss costs more
};

struct Verdict {
  double p_ge = 0;  // chance of so many mites or more, at the threshold
  double p_le = 0;  // chance of so many or fewer
  Decision decision = Decision::Recount;
};
[[nodiscard]] Verdict verdict(double p_ge, double p_le, const Cutoff& cutoff);
[[nodiscard]] Verdict judge(const Wash& wash, const Cutoff& cutoff);

// Washes of one colony taken together. Empty gives no bees.
[[nodiscard]] Wash pooled(const std::vector<Wash>& washes);

// All washes of a colony judged together; once `allowed` of them are in and still nothing is
// decided, the point estimate decides. Needs at least one wash.
[[nodiscard]] Decision decide(const std::vector<Wash>& washes, int allowed, const Cutoff& cutoff);

// For the table beside the keypad: "0-2 watch, 3-9 recount, 10 or more treat".
struct DecisionTable {
  std::optional<std::int64_t> watch_up_to;  // none: even no mite does not clear the colony
  std::int64_t treat_from = 0;
};
[[nodiscard]] DecisionTable decision_table(std::int64_t bees, const Cutoff& cutoff);

// How many further washes of `bees_each` would decide if the rate stays as counted; 0 when decided
// already, none when `most` would not do.
[[nodiscard]] std::optional<int> more_washes_if_rate_holds(const Wash& wash, std::int64_t bees_each,
                                                           const Cutoff& cutoff, int most = 10);

}  // namespace engine::mites
