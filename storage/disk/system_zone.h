// storage/disk/system_zone.h -- the time zone that the system is set to, also when it is set anew
// while the program runs: over a border, or on a tablet that was set up wrongly.
//
// The C library reads the zone once. So the link that names it (/etc/localtime) is looked at every
// few seconds; when it has changed, the zone's name is read from it, and the offset from the tz
// database (zones.h). A zone in the environment (TZ) holds as long as the program runs.
#pragma once
#include <chrono>
#include <optional>
#include <string>

#include "engine/core/instant.h"

namespace storage {

class SystemZone {
 public:
  // `link` is what names the system's zone; `chosen`, what TZ says: empty or the system's own file
  // leave the choice to the link.
  explicit SystemZone(std::string link = "/etc/localtime", const std::string& chosen = {});

  // Local time minus UTC at that moment. `since_boot` says when the link was looked at last.
  [[nodiscard]] std::chrono::minutes offset(std::chrono::sys_seconds utc, engine::Ms since_boot);

 private:
  struct Seen {
    std::string target;
    std::int64_t inode = 0, changed_ns = 0;
    friend bool operator==(const Seen&, const Seen&) = default;
  };
  [[nodiscard]] Seen look() const;
  void look_again();

  std::string link_;
  bool watched_ = false;
  Seen seen_;
  std::optional<engine::Ms> looked_;
  std::string name_;  // of the zone; empty: the C library knows it
};

}  // namespace storage
