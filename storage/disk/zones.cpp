#include "storage/disk/zones.h"

#include <date/tz.h>

#include <stdexcept>

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

const date::time_zone* find_zone(const std::string& zone) {
  try {
    return date::locate_zone(zone);
  } catch (const std::runtime_error&) {
    return nullptr;
  }
}

Status no_zone(const std::string& zone) {
  return {Code::BadInput, "there is no time zone \"" + zone + "\"; such as America/Chicago"};
}

}  // namespace

Result<std::chrono::seconds> zone_offset(const std::string& zone, std::chrono::sys_seconds utc) {
  const date::time_zone* found = find_zone(zone);
  if (found == nullptr) return no_zone(zone);
  return found->get_info(utc).offset;
}

Result<std::chrono::sys_seconds> day_begins(const std::string& zone, engine::Date day) {
  const date::time_zone* found = find_zone(zone);
  if (found == nullptr) return no_zone(zone);
  const date::local_seconds midnight{engine::days(day).time_since_epoch()};
  const date::local_info info = found->get_info(midnight);
  if (info.result == date::local_info::nonexistent) return info.first.end;
  return std::chrono::sys_seconds{midnight.time_since_epoch() - info.first.offset};
}

}  // namespace storage
