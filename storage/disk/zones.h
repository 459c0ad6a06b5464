// storage/disk/zones.h -- clocks of the world: from a zone's IANA name and an instant to local
// time.
//
// Read from the system's tzdata by the date library (Hinnant), so that rules of summer time are as
// new as the tablet's packages.
#pragma once
#include <chrono>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/status.h"

namespace storage {

// Local time minus UTC at that instant; BadInput when there is no such zone.
[[nodiscard]] engine::Result<std::chrono::seconds> zone_offset(const std::string& zone,
                                                               std::chrono::sys_seconds utc);

// The instant at which the calendar day begins there: midnight, or the first moment after it where
// clocks jump over midnight.
[[nodiscard]] engine::Result<std::chrono::sys_seconds> day_begins(const std::string& zone,
                                                                  engine::Date day);

}  // namespace storage
