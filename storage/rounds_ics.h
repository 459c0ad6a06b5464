// storage/rounds_ics.h -- the rounds to come and the colonies to come back to, for any calendar.
//
// RFC 5545: one VEVENT for each round not walked yet of each course that goes on, and one for each
// walk that left colonies to come back to, on the day after it. All-day events; CRLF; lines folded
// at 75 octets, never inside a character. A UID belongs to its round (course and number) or walk
// for ever, so a calendar that reads the file again moves events and does not double them; SEQUENCE
// counts how often a course was changed. Written here by hand: it is eight properties, and the
// tablet needs no calendar library for them.
#pragma once
#include <string>

#include "engine/farm/farm.h"

namespace storage {

// DTSTAMP is `as_of`: the same farm at the same moment gives the same bytes.
[[nodiscard]] std::string rounds_ics(const engine::Farm& farm, const engine::Stamp& as_of);

}  // namespace storage
