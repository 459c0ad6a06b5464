// engine/mites/efficacy.h -- did it work: efficacy from counts before and after, with limits.
//
// Percent. Efficacy may come out negative. Without untreated colonies a fall in the counts is
// "change, not efficacy": mites also come and go by themselves.
#pragma once
#include <array>
#include <cstdint>

#include "engine/mites/counting.h"

namespace engine::mites {

enum class EfficacyMethod {
  HendersonTilton,  // 1 - (Ta/Tb)(Cb/Ca): treated and untreated colonies, before and after
  Abbott,           // 1 - Ta/Ca: treated and untreated colonies, after
  Reduction,        // 1 - Ta/Tb: treated colonies, before and after; a change, not an efficacy
};
constexpr std::array<const char*, 3> enum_names(EfficacyMethod) {
  return {"henderson_tilton", "abbott", "reduction"};
}

// Treated and control, before and after. Only those the method names are read, as mites per bee.
struct EfficacyCounts {
  Wash treated_after, treated_before, control_after, control_before;
};

struct Efficacy {
  double percent = 0;
  double low = 0, high = 0;
  bool zero_corrected = false;  // a count was 0, and half a mite was added to each count used
};

// phi >= 1 widens the limits for more spread than chance alone gives: for several colonies pooled
// the overdispersion that they show (engine/mites/learn_kill.h). Each count read has at least one
// bee.
[[nodiscard]] Efficacy efficacy(EfficacyMethod method, const EfficacyCounts& counts, double phi = 1,
                                double conf = 0.95);

// Follow-up: mites killed by the treatment out of those and the ones a second, thorough treatment
// then killed, with Clopper-Pearson limits. At least one mite in all.
[[nodiscard]] Efficacy follow_up_efficacy(std::int64_t killed, std::int64_t by_follow_up,
                                          double conf = 0.95);

}  // namespace engine::mites
