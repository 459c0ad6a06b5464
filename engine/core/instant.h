// engine/core/instant.h -- when something happened, and how long ago.
//
// A Stamp carries two clocks. The wall clock (UTC and the zone's offset) says what an inspector
// reads; it may jump. The boot clock (milliseconds since boot, counting through suspend) measures;
// it starts anew at each boot. Within one boot only the boot clock decides how long something took.
#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "engine/core/shared_text.h"

namespace engine {

using Ms = std::chrono::milliseconds;
using Seconds = std::chrono::seconds;
using Utc = std::chrono::sys_time<Ms>;
using Date = std::chrono::year_month_day;

struct Stamp {
  Utc at{};                     // wall clock, UTC
  std::chrono::minutes zone{};  // local time minus UTC
  SharedText boot;              // which boot of the machine; empty when not known
  Ms since_boot{};              // CLOCK_BOOTTIME

  friend bool operator==(const Stamp&, const Stamp&) = default;
};

// The wall clocks that can be right. One that says less or more is wrong for sure; it is kept and
// shown as it is, and decides nothing.
inline constexpr Utc kFirstCredible{std::chrono::sys_days{
    Date{std::chrono::year{1900}, std::chrono::January, std::chrono::day{1}}}};
inline constexpr Utc kLastCredible{
    std::chrono::sys_days{
        Date{std::chrono::year{2200}, std::chrono::January, std::chrono::day{1}}} -
    Ms{1}};
[[nodiscard]] constexpr bool credible(const Stamp& s) {
  return s.at >= kFirstCredible && s.at <= kLastCredible;
}

// Time from one stamp to a later one, never negative. `sure` is false when only wall clocks could
// tell (another boot) and one was not set: then it is no less than `length`, what the new boot ran.
struct Elapsed {
  Ms length{};
  bool sure = true;
};
[[nodiscard]] Elapsed elapsed(const Stamp& from, const Stamp& to);

// The stamp `later` after `from` on both clocks; for looking ahead.
[[nodiscard]] Stamp after(Stamp from, Ms later);

// So long after the midnight that begins the day in a zone; the boot clock stays empty.
[[nodiscard]] Stamp stamp_on(Date on, std::chrono::minutes of_day, std::chrono::minutes zone);

[[nodiscard]] Date local_date(const Stamp& s);
[[nodiscard]] std::chrono::sys_days days(Date d);
// The day so many days later (earlier when negative); days from one to another.
[[nodiscard]] Date date_after(Date d, int n);
[[nodiscard]] int days_apart(Date from, Date to);

// "2026-08-14"; "19:40"; "19:40:05"; "2026-08-14T19:40:05-07:00" (RFC 3339).
[[nodiscard]] std::string iso_date(Date d);
[[nodiscard]] std::string clock_time(const Stamp& s);
[[nodiscard]] std::string clock_time(std::chrono::minutes of_day);
[[nodiscard]] std::string clock_seconds(const Stamp& s);
[[nodiscard]] std::string rfc3339(const Stamp& s);
// "1:05", "12:00", "1:02:03"; a negative length gets a minus sign. Rounds down to whole seconds.
[[nodiscard]] std::string minutes_seconds(Ms length);

// Reads "2026-08-14"; nullopt when it is no such text or no day of the calendar.
[[nodiscard]] std::optional<Date> date_from_iso(std::string_view text);
// Reads an RFC 3339 date-time with an offset ("Z" or "+hh:mm"); the boot clock stays empty.
[[nodiscard]] std::optional<Stamp> stamp_from_rfc3339(std::string_view text);

}  // namespace engine
