// engine/farm/setups.h -- what is set on this tablet, and what others have set that it may use.
//
// Name, units, theme, home and pace are of a person or a tablet: they are set where they are set,
// and nowhere else. The label in force, the thresholds and the hours and settings of kit are of the
// outfit: what another tablet has of them is an offer, until the keeper of this one uses it (an
// ordinary setup_changed here) or keeps what is set here (setup_kept).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// The farm as that tablet shows it.
[[nodiscard]] Farm shown_on(Farm farm, DeviceId device);

// What is set on that tablet; on a side of a fork, what it goes on from counts too.
[[nodiscard]] Setup setup_of(const Farm& farm, DeviceId device);

// What another tablet has set for the outfit and this one has not, or otherwise.
struct Offer {
  DeviceId tablet;                // the first of those that have just this
  std::vector<EntryRef> entries;  // their last words of it
  SetupChanged change;            // what would be another here; to use it, an entry of this tablet
};
// Those that the keeper of Farm::own has not looked at yet, by tablet.
[[nodiscard]] std::vector<Offer> offers(const Farm& farm);

// The change, and with it an entry that keeps what it makes different from what other tablets have:
// what the keeper chose himself is not asked about.
[[nodiscard]] std::vector<Body> chosen_here(const Farm& farm, const SetupChanged& change);

// All that is set there, as one change; nothing: it says nothing that is not so here.
[[nodiscard]] std::optional<SetupChanged> all_of(const Setup& from, const Setup& here);

}  // namespace engine
