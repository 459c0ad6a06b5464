// Folds an entry into the farm by its kind; notes, settings and what is said of entries are here.
#include "engine/farm/fold.h"

#include "engine/farm/fold_kinds.h"
#include "engine/farm/setups.h"

namespace engine {

// Kept in the log, where the register reads them.
void fold(Farm&, const Event&, const NoteWritten&) {}
void fold(Farm&, const Event&, const EntryStruck&) {}
void fold(Farm&, const Event&, const EntryCorrected&) {}  // folded in the place of what it corrects
void fold(Farm&, const Event&, const StrikeTakenBack&) {}
void fold(Farm&, const Event&, const ContradictionSettled&) {}
void fold(Farm&, const Event&, const YardsJoined&) {}  // what they join, the log shows as one
void fold(Farm&, const Event&, const ColoniesJoined&) {}
void fold(Farm&, const Event&, const ClockFollowed&) {}  // its clock is read from the log
void fold(Farm&, const Event&, const TabletKeyed&) {}  // whose entries count is the store's matter
void fold(Farm&, const Event&, const TabletTrusted&) {}
void fold(Farm&, const Event&, const TabletRefused&) {}

void fold(Farm& f, const Event& at, const SetupChanged& e) {
  TabletSetup& tablet = setup_to_change(f, at.ref.device);
  change(tablet.setup, e);
  if (is_offer(e)) tablet.offered = at.ref;
  show_own_setup(f);
}

void fold(Farm& f, const Event& at, const SetupKept& e) {
  setup_to_change(f, at.ref.device).kept.insert(e.entries.begin(), e.entries.end());
}

void fold_in(Farm& f, const Event& e) {
  std::visit(
      [&]<class Kind>(const Kind& body) {
        if constexpr (Kind::kFacts.is_step())
          fold_step(f, e);
        else
          fold(f, e, body);
      },
      e.body);
}

}  // namespace engine
