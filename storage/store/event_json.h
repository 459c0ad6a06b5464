// storage/store/event_json.h -- an event as a row of the journal, and back.
//
// The body is one JSON object in a canonical form: keys sorted, no spaces, UTF-8. Ids are UUID
// text, enums their names, dates ISO text, masses milligrams, durations whole numbers of their
// unit; an optional field is absent when it is unset. Text that is not UTF-8 is written with
// U+FFFD in place of what cannot be read.
#pragma once
#include "engine/core/status.h"
#include "engine/events/event.h"
#include "storage/journal/record.h"

namespace storage {

[[nodiscard]] Record to_record(const engine::Event& event);

// Keys that we do not know are passed over: a later version may have added an optional field. An
// unknown kind is TooNew; a missing or wrong field is Damaged and named
// ("walk_opened.rules.basis").
[[nodiscard]] engine::Result<engine::Event> to_event(const Record& record);

}  // namespace storage
