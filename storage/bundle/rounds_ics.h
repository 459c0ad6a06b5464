// storage/bundle/rounds_ics.h -- rounds, counts after a course, colonies to come back to and
// what treatments end with, for any calendar.
//
// RFC 5545: one VEVENT for each round of each course (to come; walked, on the day it was; cancelled
// when the course ended, was shortened or its yard was given up), one for the count that a finished
// course wants, one for strips that must come out, for supers and for honey that wait (of a yard, a
// product and a day of giving; cancelled once strips are out or what was given is struck), and one
// for each walk that left colonies to come back to, on the day after it
// (cancelled once none needs the visit). What is over is told for 400 days. All-day events; CRLF;
// lines folded at 75 octets, never inside a character. A UID belongs to its round (course and
// number), course, walk, or treatment (yard, day, product) for ever, so a calendar that reads the
// file again moves events and does not double them; SEQUENCE counts the entries that may have
// changed the event and never sinks. Written here by hand: it is ten properties, and the tablet
// needs no calendar library for them.
#pragma once
#include <span>
#include <string>

#include "engine/farm/farm.h"
#include "engine/method/method.h"

namespace storage {

// DTSTAMP is `as_of`: the same farm at the same moment gives the same bytes. Without the rules of
// the methods nobody knows when strips come out.
[[nodiscard]] std::string rounds_ics(const engine::Farm& farm, const engine::Stamp& as_of,
                                     std::span<const engine::MethodRules> methods = {});

}  // namespace storage
