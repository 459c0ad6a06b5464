#include "ui/screens/today/evening_band.h"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "engine/light/sun.h"
#include "engine/words/words.h"
#include "ui/screens/base/roles.h"
#include "ui/touch/face.h"
#include "ui/touch/ink_pen.h"
#include "ui/touch/paint.h"

namespace ui {

namespace {

using std::chrono::sys_seconds;

constexpr int kStripes = 48;                 // of the sky
constexpr std::chrono::minutes kBefore{90};  // before the bees are home
constexpr std::chrono::minutes kAfter{20};

// Of the first yard that is due, else of home.
std::optional<engine::Place> place_of(const Look& look, const Tonight& tonight) {
  for (const engine::TripYard& y : tonight.due)
    if (const auto at = look.farm.yards.find(y.yard); at != look.farm.yards.end())
      if (at->second.place) return at->second.place;
  return look.farm.setup.home;
}

// Time across the band.
struct SkyScale {
  sys_seconds from{}, until{};
  Rect rect;
  [[nodiscard]] float x(sys_seconds at) const {
    const double part =
        static_cast<double>((at - from).count()) / static_cast<double>((until - from).count());
    return rect.x + rect.w * static_cast<float>(std::clamp(part, 0.0, 1.0));
  }
  [[nodiscard]] sys_seconds at(float part) const {
    return from + std::chrono::seconds{static_cast<std::int64_t>(
                      static_cast<double>((until - from).count()) * static_cast<double>(part))};
  }
};

Colour mixed(Colour a, Colour b, double part) {
  const auto mix = [part](std::uint8_t x, std::uint8_t y) {
    return static_cast<std::uint8_t>(std::lround(x + (y - x) * std::clamp(part, 0.0, 1.0)));
  };
  return {mix(a.r, b.r), mix(a.g, b.g), mix(a.b, b.b)};
}

double height_of(const engine::Place& place, sys_seconds at) {
  return engine::sun_height(place.lat_udeg / 1e6, place.lon_udeg / 1e6, at);
}

// Day from 6 degrees up, night from 12 degrees below; between them twilight.
void draw_sky(Touch& t, const SkyScale& s, const engine::Place& place) {
  const bool red = t.theme().name == "night";
  const Colour day = red ? Colour{60, 12, 6} : Colour{190, 214, 236};
  const Colour night = red ? Colour{0, 0, 0} : Colour{28, 36, 62};
  const float wide = s.rect.w / kStripes;
  for (int i = 0; i < kStripes; ++i) {
    const auto n = static_cast<float>(i);
    const double dark = (6 - height_of(place, s.at((n + 0.5F) / kStripes))) / 18;
    const float x = s.rect.x + wide * n;
    paint_rect(t.draw(), {x, s.rect.y, wide + 1, s.rect.h}, mixed(day, night, dark));
  }
}

// The sun's way down to the horizon, which is the lower edge, and the sun where it stands now.
void draw_sun(Touch& t, const SkyScale& s, const engine::Place& place, sys_seconds now) {
  const InkPen pen{t.draw(), t.theme()[Surface::Active].edge, t.mm(0.7F)};
  const double top = std::max(6.0, height_of(place, s.from));
  const auto y_of = [&](double up) {
    return s.rect.bottom() - s.rect.h * 0.85F * static_cast<float>(up / top);
  };
  std::vector<ImVec2> way;
  for (int i = 0; i <= kStripes; ++i) {
    const float part = static_cast<float>(i) / kStripes;
    const double up = height_of(place, s.at(part));
    if (up < 0) break;
    way.emplace_back(s.rect.x + s.rect.w * part, y_of(up));
  }
  if (way.size() < 2) return;
  pen.stroke(way);
  const sys_seconds at = std::max(now, s.from);
  if (const double up = height_of(place, at); up > 0 && at < s.until)
    pen.disc(s.x(at) + t.mm(1.6F), y_of(up), t.mm(1.6F));
}

// Words in a box over the time that they are about, where they fit.
void draw_span(Touch& t, const SkyScale& s, float y, float tall, sys_seconds from,
               sys_seconds until, const std::string& words, Surface surface) {
  const Rect box{s.x(from), y, s.x(until) - s.x(from), tall};
  if (box.w < 2) return;
  t.fill(box, surface, t.mm(0.25F));
  if (wide(t, words, Role::Small) <= box.w - t.mm(1))
    say(t, box, words, Role::Small, {.align = Align::Center});
}

std::string hour_words(sys_seconds at, const Tonight& tonight) {
  engine::Stamp stamp;
  stamp.at = at;
  stamp.zone = tonight.zone;
  return engine::clock_time(stamp);
}

// A word beside a moment in the sky, on a ground of its own.
void draw_moment(Touch& t, const SkyScale& s, sys_seconds at, const std::string& words,
                 bool before) {
  const float x = s.x(at);
  const float w = wide(t, words, Role::Small) + t.mm(1.4F);
  const Rect box{before ? x - w - t.mm(0.6F) : x + t.mm(0.6F), s.rect.y + t.mm(0.6F), w,
                 high(t, Role::Small) + t.mm(0.4F)};
  paint_rect(t.draw(), {x - 1, s.rect.y, 2, s.rect.h}, t.theme()[Surface::Page].edge);
  if (box.x < s.rect.x || box.right() > s.rect.right()) return;
  t.fill(box, Surface::Panel, 0, true);
  say(t, box, words, Role::Small, {.align = Align::Center});
}

// Where the evening is by now; its word stands at the horizon, below those of the bees.
void draw_now(Touch& t, const SkyScale& s, sys_seconds now) {
  if (now <= s.from || now >= s.until) return;
  const float x = s.x(now), w = wide(t, "now", Role::Small) + t.mm(1.4F);
  const float tall = high(t, Role::Small) + t.mm(0.4F);
  const bool left = x + w + t.mm(1) > s.rect.right();
  const Rect box{left ? x - w : x, s.rect.bottom() - tall, w, tall};
  paint_rect(t.draw(), {x - t.mm(0.25F), s.rect.y, t.mm(0.5F), s.rect.h},
             t.theme()[Surface::Active].edge);
  t.fill(box, Surface::Active, 0, true);
  say(t, box, "now", Role::Small, {.align = Align::Center});
}

void draw_trip(Touch& t, const SkyScale& s, float y, float tall, const Look& look,
               const Tonight& tonight) {
  sys_seconds from = tonight.trip->leave;
  for (const engine::VisitOnClock& v : tonight.trip->visits) {
    draw_span(t, s, y, tall, from, v.arrive, "drive", Surface::Bar);
    draw_span(t, s, y, tall, v.arrive, v.walk_until, look.farm.yards.at(v.yard).name,
              Surface::Chosen);
    from = v.walk_until;
  }
  draw_span(t, s, y, tall, from, tonight.trip->home, "drive", Surface::Bar);
}

// From well before the bees are home until the trip has ended.
SkyScale scale_of(const Tonight& tonight, const Rect& rect) {
  const engine::HomeSpan& light = *tonight.bees->light;
  sys_seconds from = light.from - kBefore;
  sys_seconds until = tonight.bees->lamp.value_or(light).until + kAfter;
  if (tonight.trip) {
    from = std::min(from, tonight.trip->leave);
    until = std::max(until, tonight.trip->home);
  }
  return {from, until, rect};
}

// When the bees are home, and beside it what the trip holds.
void draw_window(Touch& t, Rect line, const std::string& label, const Tonight& tonight) {
  say(t, cut_left(line, wide(t, label, Role::Body), step(t)), label, Role::Body);
  const std::string words = trip_words(tonight);
  const Role role = role_for(t, words, line.w, Role::Body, Role::Small);
  say(t, line, shortened(t, words, line.w, role), role, {.align = Align::Right});
}

}  // namespace

bool has_band(const Look& look, const Tonight& tonight) {
  return tonight.part == engine::HomePart::Evening && tonight.bees && tonight.bees->light &&
         place_of(look, tonight);
}

float band_high(const Touch& t) { return t.mm(t.portrait() ? 30 : 36); }

bool evening_band(Touch& t, const Rect& rect, const Look& look, const Tonight& tonight) {
  const std::string label = window_label(tonight);
  const Hit hit = t.target(label, rect, true, false, "The trip");
  draw_face(t, rect, face_of(hit, true, Surface::Panel), true);
  Rect room = inset(rect, t.mm(2), t.mm(1));
  draw_window(t, cut_top(room, high(t, Role::Body), t.mm(0.6F)), label, tonight);
  const float tall = high(t, Role::Small) + t.mm(1);
  const Rect trip = cut_bottom(room, tall, t.mm(0.8F));
  const Rect home = cut_bottom(room, tall, t.mm(0.8F));
  const SkyScale s = scale_of(tonight, room);
  const engine::Place place = *place_of(look, tonight);
  draw_sky(t, s, place);
  const auto now = std::chrono::floor<std::chrono::seconds>(look.now.at);
  draw_sun(t, s, place, now);
  const engine::HomeSpan& light = *tonight.bees->light;
  const engine::HomeSpan whole = tonight.bees->lamp.value_or(light);
  draw_now(t, s, now);
  draw_moment(t, s, light.from, "home " + hour_words(light.from, tonight), true);
  draw_moment(t, s, light.until, "dark " + hour_words(light.until, tonight), false);
  draw_span(t, s, home.y, tall, whole.from, whole.until, "bees home", Surface::Good);
  if (tonight.trip) draw_trip(t, s, trip.y, tall, look, tonight);
  return hit.tapped;
}

}  // namespace ui
