#include "storage/disk/system_zone.h"

#include <sys/stat.h>

#include <ctime>
#include <filesystem>

#include "storage/disk/zones.h"

namespace storage {
namespace {

constexpr engine::Ms kLookEvery{5000};

// ".../zoneinfo/America/Chicago" is America/Chicago.
std::string zone_in(const std::string& target) {
  constexpr std::string_view kFolder = "zoneinfo/";
  const std::size_t at = target.rfind(kFolder);
  return at == std::string::npos ? std::string() : target.substr(at + kFolder.size());
}

std::chrono::minutes by_c_library(std::chrono::sys_seconds utc) {
  const std::time_t t = utc.time_since_epoch().count();
  std::tm local{};
  localtime_r(&t, &local);
  return std::chrono::minutes{local.tm_gmtoff / 60};
}

}  // namespace

SystemZone::SystemZone(std::string link, const std::string& chosen)
    : link_(std::move(link)), watched_(chosen.empty() || chosen == link_ || chosen == ":" + link_) {
  if (watched_) seen_ = look();
}

SystemZone::Seen SystemZone::look() const {
  Seen seen;
  std::error_code error;
  const auto target = std::filesystem::read_symlink(link_, error);
  if (!error) seen.target = target.string();
  struct stat file {};
  if (stat(link_.c_str(), &file) != 0) return seen;
  seen.inode = static_cast<std::int64_t>(file.st_ino);
  seen.changed_ns = file.st_mtim.tv_sec * 1'000'000'000LL + file.st_mtim.tv_nsec;
  return seen;
}

void SystemZone::look_again() {
  const Seen now = look();
  if (now == seen_) return;
  seen_ = now;
  name_ = zone_in(now.target);
  if (!zone_offset(name_, {}).ok()) name_.clear();
  if (name_.empty()) tzset();  // a file of its own: the C library reads it again
}

std::chrono::minutes SystemZone::offset(std::chrono::sys_seconds utc, engine::Ms since_boot) {
  if (watched_ && (!looked_ || since_boot - *looked_ >= kLookEvery)) {
    looked_ = since_boot;
    look_again();
  }
  if (!name_.empty())
    if (const auto found = zone_offset(name_, utc); found.ok())
      return std::chrono::floor<std::chrono::minutes>(found.value());
  return by_c_library(utc);
}

}  // namespace storage
