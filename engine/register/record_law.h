// engine/register/record_law.h -- what a law asks of the record of treatments, how long the record
// must be kept, and what is missing in the keeper's.
//
// Read in 2026 where not said otherwise: Regulation (EU) 2019/6, Art. 108(2) and (3); the record
// duties of the UK's Veterinary Medicines Regulations as two beekeepers' associations quote the
// directorate; 7 USC 6519 and 7 CFR 205.103; New South Wales' order on bees of 2023 and the
// Australian honey bee industry's biosecurity code. States may ask for more: local law decides.
#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "engine/register/register.h"

namespace engine {

enum class RecordLaw { Eu, Uk, UsOrganic, NewSouthWales };
constexpr std::array<const char*, 4> enum_names(RecordLaw) {
  return {"eu", "uk", "us_organic", "nsw"};
}

// Who asks and how long the record is kept, one sentence; then what the log cannot know of it, a
// sentence each.
[[nodiscard]] std::vector<std::string> law_says(RecordLaw law);

// Of the treatments among the rows that count (struck and passed over ones are none), a line for
// each thing that is asked for and missing: "address of the supplier: missing in 2 of 14". Empty:
// nothing is.
[[nodiscard]] std::vector<std::string> missing_for(RecordLaw law,
                                                   std::span<const RegisterRow> rows);

}  // namespace engine
