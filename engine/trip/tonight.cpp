#include "engine/trip/tonight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace engine {
namespace {

using std::chrono::sys_seconds;

double minutes_between(sys_seconds from, sys_seconds to) {
  return std::chrono::duration<double, std::ratio<60>>(to - from).count();
}

sys_seconds after_minutes(sys_seconds zero, double min) {
  return zero + Seconds{std::llround(min * 60)};
}

// The yards that have a window, and the question about them.
struct Asked {
  std::vector<YardId> yards;
  TripAsk ask;
  sys_seconds zero{};
};

void add_stop(const Farm& farm, const TripYard& y, const TripWish& wish, Asked& to) {
  const auto home = home_of_yard(farm, y.yard, wish);
  if (!home || !home->lamp) return;
  const HomeSpan& span = *home->lamp;
  const sys_seconds first = std::max(span.from, wish.not_before.value_or(span.from));
  const double walk =
      wish.minutes_of ? wish.minutes_of(y.yard) : walk_minutes(farm, y.yard, wish.pace);
  to.yards.push_back(y.yard);
  to.ask.stops.push_back(
      {y.days_over, walk, minutes_between(to.zero, first), minutes_between(to.zero, span.until)});
}

// Nobody reaches a yard before the drive from home is over.
void wait_for_drives(const TripWish& wish, Asked& to) {
  if (!wish.not_before) return;
  const double now = minutes_between(to.zero, *wish.not_before);
  for (std::size_t i = 0; i < to.yards.size(); ++i) {
    double& from = to.ask.stops[i].from_min;
    from = std::max(from, now + to.ask.drive_min.back()[i]);
  }
}

std::string line_of(const Farm& farm, const Asked& asked, const TripLeftOut& out) {
  const TripStop& s = asked.ask.stops[out.stop];
  const std::string& name = farm.yards.at(asked.yards[out.stop]).name;
  if (out.why == TripOut::WindowTooShort)
    return fmt::format("{}: its walk of {:.0f} min is longer than the {:.0f} min that are left",
                       name, s.walk_min, std::max(0.0, s.until_min - s.from_min));
  if (out.why == TripOut::TooMany)
    return fmt::format("{}: {} others are more overdue", name, kTripExact);
  return fmt::format("{}: no room beside the others", name);
}

std::string more_line(const Farm& farm, const Asked& asked, const Trip& trip) {
  if (trip.more.empty()) return {};
  const auto most = [&](const Trip& t) {
    int over = asked.ask.stops[t.visits.front().stop].days_over;
    for (const TripVisit& v : t.visits) over = std::max(over, asked.ask.stops[v.stop].days_over);
    return over;
  };
  const Trip& other = trip.more.front();
  std::string names;
  for (const TripVisit& v : other.visits)
    names += (names.empty() ? "" : ", ") + farm.yards.at(asked.yards[v.stop]).name;
  return fmt::format(
      "{} yards instead of {}: {}. The most overdue of them is {} days over instead "
      "of {}.",
      other.visits.size(), trip.visits.size(), names, most(other), most(trip));
}

bool all_known(const Farm& farm, const std::vector<VisitOnClock>& visits) {
  YardId at{};
  const auto known = [&](YardId to) { return drive_known(farm, std::exchange(at, to), to); };
  return std::all_of(visits.begin(), visits.end(),
                     [&](const VisitOnClock& v) { return known(v.yard); }) &&
         known({});
}

}  // namespace

std::vector<const Colony*> colonies_of(const Farm& farm, const TripYard& visit) {
  std::vector<const Colony*> list = colonies_to_treat(farm, visit.yard);
  const auto& only = visit.only;
  if (!only.empty())
    std::erase_if(list, [&](const Colony* c) {
      return std::find(only.begin(), only.end(), c->id) == only.end();
    });
  return list;
}

std::vector<TripYard> yards_to_visit(const Farm& farm, const Due& due) {
  std::vector<TripYard> list;
  const auto walked = [&](YardId yard) {
    return std::any_of(farm.walk_under_way.begin(), farm.walk_under_way.end(),
                       [&](const auto& under) { return farm.walks.at(under.second).yard == yard; });
  };
  const auto at = [&](YardId yard) {
    return std::find_if(list.begin(), list.end(),
                        [&](const TripYard& y) { return y.yard == yard; });
  };
  for (const DueRound& r : due.rounds)
    if (!walked(r.yard) && at(r.yard) == list.end()) list.push_back({r.yard, r.days_over});
  const std::size_t rounds = list.size();
  for (const ComeBack& c : due.come_backs) {
    if (walked(c.yard)) continue;
    auto to = at(c.yard);
    if (to == list.end()) to = list.insert(to, {c.yard, 0});
    if (static_cast<std::size_t>(to - list.begin()) >= rounds) to->only.push_back(c.colony);
  }
  return list;
}

std::optional<BeesHome> home_of_yard(const Farm& farm, YardId yard, const TripWish& wish) {
  const auto place = light_place(farm, yard);
  if (!place) return std::nullopt;
  return bees_home_at(wish.part, *place, wish.on, wish.zone,
                      air_expected(farm, wish.on, wish.part));
}

std::optional<TripOnClock> trip_of(const Farm& farm, const std::vector<TripYard>& yards,
                                   const TripWish& wish) {
  Asked asked;
  asked.zero = sys_seconds{days(wish.on)};
  for (const TripYard& y : yards) add_stop(farm, y, wish, asked);
  if (asked.yards.empty()) return std::nullopt;
  asked.ask.drive_min = drive_table(farm, asked.yards, wish.pace);
  wait_for_drives(wish, asked);
  const Trip trip = plan_trip(asked.ask);
  TripOnClock out;
  const auto clock = [&](double min) { return after_minutes(asked.zero, min); };
  out.leave = clock(trip.leave_min);
  out.home = clock(trip.home_min);
  for (const TripVisit& v : trip.visits)
    out.visits.push_back({asked.yards[v.stop], clock(v.arrive_min), clock(v.walk_from_min),
                          clock(v.walk_until_min)});
  for (const TripLeftOut& l : trip.left_out)
    out.left_out.push_back({asked.yards[l.stop], l.why, line_of(farm, asked, l)});
  out.more = more_line(farm, asked, trip);
  out.drives_known = all_known(farm, out.visits);
  return out;
}

}  // namespace engine
