#include "engine/guide/last_light.h"

#include <fmt/format.h>

#include "engine/language/tr.h"
#include "engine/light/sun.h"

namespace engine {

std::optional<Stamp> last_light(const Farm& farm, YardId yard, const Stamp& now) {
  const auto at = farm.yards.find(yard);
  if (at == farm.yards.end() || !at->second.place) return std::nullopt;
  const Place& place = *at->second.place;
  const auto sun_of = [&](Date on) {
    const std::chrono::sys_seconds midnight{days(on) - now.zone};
    return sun_on(place.lat_udeg / 1e6, place.lon_udeg / 1e6, midnight,
                  midnight + std::chrono::days{1});
  };
  const Date today = local_date(now);
  SunDay sun = sun_of(today);
  // Until the sun's own midnight it is still yesterday's evening, which in a northern June ends
  // after that of the clock.
  if (now.at < sun.noon) sun = sun_of(date_after(today, -1));
  if (!sun.civil_dusk || now.at > sun.noon + std::chrono::hours{12}) return std::nullopt;
  return Stamp{.at = *sun.civil_dusk, .zone = now.zone};
}

Ending ending(const Stamp& ends, const std::optional<Stamp>& dusk) {
  using std::chrono::minutes;
  const std::string at = tr("ends {}", clock_time(ends));
  if (!dusk) return {at};
  const auto left = std::chrono::floor<minutes>(dusk->at - ends.at);
  if (left >= minutes{0}) return {tr("{}, {} min before dusk", at, left.count())};
  return {tr("{}, {} min after dusk", at, -left.count()), true};
}

}  // namespace engine
