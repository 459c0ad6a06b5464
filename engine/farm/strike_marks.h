// engine/farm/strike_marks.h -- which strikes, corrections and takings back of a log hold.
//
// They are read in the common order. The first strike or correction of an entry holds, until it is
// taken back. One under which facts of another tablet would fall, when neither tablet had read the
// other's, does not take effect: it is marked as fallen (OthersStandOnIt) and is a contradiction
// that people settle. Every void one stays readable.
#pragma once
#include <cstddef>

#include "engine/farm/farm.h"

namespace engine {

// Marks all that is struck; the first place from which the farm may be another for it. The log's
// old marks may be anything; what folding found of corrections that held before and hold now is
// kept. `f`: its log, in common order, its branches and numbers are asked, its state is not.
[[nodiscard]] std::size_t mark_strikes(Farm& f);

// Strikes and joins (fold.h). A correction may name the one thing where its entry names the other:
// which strikes hold is asked again when it is known what is joined.
[[nodiscard]] std::size_t mark_strikes_and_joins(Farm& f);

}  // namespace engine
