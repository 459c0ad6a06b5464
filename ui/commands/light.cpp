#include <fmt/format.h>

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/light/sun.h"
#include "storage/disk/zones.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

using std::chrono::sys_seconds;

struct Event {
  const char* key;
  const char* words;
  std::optional<sys_seconds> at;
};

// Empty: the place has days and nights. At the poles every direction is noon's.
std::string wrong_place(const LightCall& call) {
  if (!std::isfinite(call.lat) || std::abs(call.lat) > 90)
    return "--lat: must be from -90 to 90 degrees";
  if (std::abs(call.lat) > 89.9) return "--lat: at the pole there is no noon, dawn or dusk";
  if (!std::isfinite(call.lon) || std::abs(call.lon) > 180)
    return "--lon: must be from -180 to 180 degrees";
  return {};
}

// Empty: a year for which engine/light/sun.h promises its seconds.
std::string wrong_year(engine::Date date) {
  const int year = static_cast<int>(date.year());
  if (year >= 1900 && year <= 2100) return {};
  return fmt::format("--date: the sun is known well from 1900 to 2100, not in {}", year);
}

std::string local(sys_seconds utc, const std::string& zone) {
  engine::Stamp stamp;
  stamp.at = utc;
  const auto offset = storage::zone_offset(zone, utc);
  stamp.zone = std::chrono::floor<std::chrono::minutes>(offset.ok() ? offset.value()
                                                                    : std::chrono::seconds{0});
  return engine::rfc3339(stamp);
}

void print_json(const std::array<Event, 5>& events, const std::string& zone) {
  nlohmann::json out;
  for (const Event& e : events)
    out[e.key] = e.at ? nlohmann::json(local(*e.at, zone)) : nlohmann::json(nullptr);
  fmt::print("{}\n", json_for_terminal(out.dump()));
}

void print_words(const std::array<Event, 5>& events, const std::string& zone) {
  for (const Event& e : events)
    say("{:<12} {}\n", e.words, e.at ? local(*e.at, zone) : "not on this day");
}

}  // namespace

int light_command(const LightCall& call) {
  if (const std::string wrong = wrong_place(call); !wrong.empty())
    return say_failure(engine::Code::BadInput, wrong);
  if (const std::string wrong = wrong_year(*call.date); !wrong.empty())
    return say_failure(engine::Code::BadInput, wrong);
  const auto next_day = engine::Date{engine::days(*call.date) + std::chrono::days{1}};
  const auto begins = storage::day_begins(call.zone, *call.date);
  const auto ends = storage::day_begins(call.zone, next_day);
  if (!begins.ok())
    return say_failure(engine::Code::BadInput, "--zone: " + begins.status().message());
  if (ends.value() <= begins.value())
    return say_failure(engine::Code::BadInput,
                       fmt::format("--date: {} was left out of the calendar in {}",
                                   engine::iso_date(*call.date), call.zone));
  const engine::SunDay sun = engine::sun_on(call.lat, call.lon, begins.value(), ends.value());
  const std::array<Event, 5> events = {{{"civil_dawn", "civil dawn", sun.civil_dawn},
                                        {"sunrise", "sunrise", sun.sunrise},
                                        {"noon", "noon", sun.noon},
                                        {"sunset", "sunset", sun.sunset},
                                        {"civil_dusk", "civil dusk", sun.civil_dusk}}};
  call.json ? print_json(events, call.zone) : print_words(events, call.zone);
  return 0;
}

}  // namespace ui
