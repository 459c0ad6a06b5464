#include "engine/core/instant.h"

#include <fmt/format.h>

#include <algorithm>

namespace engine {
namespace {

using std::chrono::floor;
using LocalMs = std::chrono::sys_time<Ms>;

// What four digits of a year can say; beyond it, the nearest moment of it.
constexpr LocalMs kFirstLocal{
    std::chrono::sys_days{Date{std::chrono::year{0}, std::chrono::January, std::chrono::day{1}}}};
constexpr LocalMs kLastLocal{
    std::chrono::sys_days{
        Date{std::chrono::year{10'000}, std::chrono::January, std::chrono::day{1}}} -
    Ms{1}};
constexpr std::chrono::minutes kMostZone{23 * 60 + 59};

LocalMs local(const Stamp& s) {
  const LocalMs at = std::clamp<LocalMs>(s.at, kFirstLocal, kLastLocal);
  const auto zone = std::clamp<std::chrono::minutes>(s.zone, -kMostZone, kMostZone);
  return std::clamp(at + zone, kFirstLocal, kLastLocal);
}

// Nothing of a walk that went over a reboot took longer; a clock that was not set did.
constexpr std::chrono::days kLongest{30};

struct Clock {
  long hour, minute, second;
};
Clock clock_of(const Stamp& s) {
  const LocalMs t = local(s);
  const auto in_day = floor<Seconds>(t - floor<std::chrono::days>(t)).count();
  return {in_day / 3600, in_day / 60 % 60, in_day % 60};
}

// Reads exactly `width` digits at `pos` and moves on; -1 when they are not there.
int digits(std::string_view text, std::size_t& pos, std::size_t width) {
  if (pos + width > text.size()) return -1;
  int value = 0;
  for (std::size_t i = 0; i < width; ++i, ++pos) {
    if (text[pos] < '0' || text[pos] > '9') return -1;
    value = value * 10 + (text[pos] - '0');
  }
  return value;
}

bool skip(std::string_view text, std::size_t& pos, char c) {
  if (pos >= text.size() || text[pos] != c) return false;
  ++pos;
  return true;
}

std::optional<Date> read_date(std::string_view text, std::size_t& pos) {
  const int y = digits(text, pos, 4);
  if (y < 0 || !skip(text, pos, '-')) return std::nullopt;
  const int m = digits(text, pos, 2);
  if (m < 0 || !skip(text, pos, '-')) return std::nullopt;
  const int d = digits(text, pos, 2);
  if (d < 0) return std::nullopt;
  const Date date{std::chrono::year{y}, std::chrono::month{static_cast<unsigned>(m)},
                  std::chrono::day{static_cast<unsigned>(d)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<Ms> read_clock(std::string_view text, std::size_t& pos) {
  const int h = digits(text, pos, 2);
  if (h < 0 || h > 23 || !skip(text, pos, ':')) return std::nullopt;
  const int m = digits(text, pos, 2);
  if (m < 0 || m > 59 || !skip(text, pos, ':')) return std::nullopt;
  const int s = digits(text, pos, 2);
  if (s < 0 || s > 59) return std::nullopt;
  int thousandths = 0;
  if (skip(text, pos, '.')) {
    int scale = 100;
    const std::size_t start = pos;
    for (; pos < text.size() && text[pos] >= '0' && text[pos] <= '9'; ++pos, scale /= 10)
      thousandths += (text[pos] - '0') * scale;
    if (pos == start) return std::nullopt;
  }
  return Ms{((h * 60L + m) * 60L + s) * 1000L + thousandths};
}

std::optional<std::chrono::minutes> read_zone(std::string_view text, std::size_t& pos) {
  if (skip(text, pos, 'Z') || skip(text, pos, 'z')) return std::chrono::minutes{0};
  int sign = 0;
  if (skip(text, pos, '+'))
    sign = 1;
  else if (skip(text, pos, '-'))
    sign = -1;
  if (sign == 0) return std::nullopt;
  const int h = digits(text, pos, 2);
  if (h < 0 || h > 23 || !skip(text, pos, ':')) return std::nullopt;
  const int m = digits(text, pos, 2);
  if (m < 0 || m > 59) return std::nullopt;
  return std::chrono::minutes{sign * (h * 60 + m)};
}

}  // namespace

Elapsed elapsed(const Stamp& from, const Stamp& to) {
  if (!from.boot.empty() && from.boot == to.boot)
    return {std::max(Ms{0}, to.since_boot - from.since_boot), true};
  // Another boot: it began after `from`, so that what it has run has passed since then for sure.
  const bool known = !from.boot.empty() && !to.boot.empty();
  const Ms least = known ? std::max(Ms{0}, to.since_boot) : Ms{0};
  if (!credible(from) || !credible(to)) return {least, false};
  const Ms wall = to.at - from.at;
  const bool sure = wall >= least && wall <= kLongest;
  return {sure ? wall : least, sure};
}

Stamp after(Stamp from, Ms later) {
  from.at += later;
  from.since_boot += later;
  return from;
}

Stamp stamp_on(Date on, std::chrono::minutes of_day, std::chrono::minutes zone) {
  return {Utc{days(on)} + of_day - zone, zone, {}, {}};
}

Date local_date(const Stamp& s) { return Date{floor<std::chrono::days>(local(s))}; }
std::chrono::sys_days days(Date d) { return std::chrono::sys_days{d}; }

Date date_after(Date d, int n) { return Date{days(d) + std::chrono::days{n}}; }

int days_apart(Date from, Date to) { return static_cast<int>((days(to) - days(from)).count()); }

std::string iso_date(Date d) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(d.year()),
                     static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}

std::string clock_time(const Stamp& s) {
  const Clock c = clock_of(s);
  return fmt::format("{:02}:{:02}", c.hour, c.minute);
}

std::string clock_time(std::chrono::minutes of_day) {
  return fmt::format("{:02}:{:02}", of_day.count() / 60, of_day.count() % 60);
}

std::string clock_seconds(const Stamp& s) {
  const Clock c = clock_of(s);
  return fmt::format("{:02}:{:02}:{:02}", c.hour, c.minute, c.second);
}

std::string rfc3339(const Stamp& s) {
  const auto off = std::clamp<std::chrono::minutes>(s.zone, -kMostZone, kMostZone).count();
  return fmt::format("{}T{}{}{:02}:{:02}", iso_date(local_date(s)), clock_seconds(s),
                     off < 0 ? '-' : '+', std::abs(off) / 60, std::abs(off) % 60);
}

std::string minutes_seconds(Ms length) {
  length = std::max(length, -Ms::max());  // what has no positive twin
  const char* sign = length < Ms{0} ? "-" : "";
  const auto s = std::chrono::duration_cast<Seconds>(std::chrono::abs(length)).count();
  if (s >= 3600) return fmt::format("{}{}:{:02}:{:02}", sign, s / 3600, s / 60 % 60, s % 60);
  return fmt::format("{}{}:{:02}", sign, s / 60, s % 60);
}

std::optional<Date> date_from_iso(std::string_view text) {
  std::size_t pos = 0;
  const auto date = read_date(text, pos);
  return pos == text.size() ? date : std::nullopt;
}

std::optional<Stamp> stamp_from_rfc3339(std::string_view text) {
  std::size_t pos = 0;
  const auto date = read_date(text, pos);
  if (!date || !(skip(text, pos, 'T') || skip(text, pos, 't') || skip(text, pos, ' ')))
    return std::nullopt;
  const auto clock = read_clock(text, pos);
  if (!clock) return std::nullopt;
  const auto zone = read_zone(text, pos);
  if (!zone || pos != text.size()) return std::nullopt;
  return Stamp{Utc{days(*date)} + *clock - *zone, *zone, {}, {}};
}

}  // namespace engine
