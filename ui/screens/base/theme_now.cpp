#include "ui/screens/base/theme_now.h"

#include "engine/light/sun.h"

namespace ui {

namespace {

constexpr double kHorizon = -0.833;  // degrees; see engine/light/sun.h

std::optional<engine::Place> place_of_evening(const engine::Farm& farm, engine::DeviceId device) {
  const engine::Walk* walk = engine::walk_under_way(farm, device);
  if (walk != nullptr)
    if (const auto yard = farm.yards.find(walk->yard); yard != farm.yards.end())
      if (yard->second.place) return yard->second.place;
  if (farm.setup.home) return farm.setup.home;
  for (const auto& [id, yard] : farm.yards)
    if (yard.place) return yard.place;
  return std::nullopt;
}

}  // namespace

engine::Theme theme_now(const engine::Farm& farm, engine::DeviceId device,
                        const engine::Stamp& now) {
  if (farm.setup.theme != engine::Theme::BySun) return farm.setup.theme;
  const auto place = place_of_evening(farm, device);
  if (!place || !engine::credible(now)) return engine::Theme::Sun;
  const double height = engine::sun_height(place->lat_udeg / 1e6, place->lon_udeg / 1e6,
                                           std::chrono::floor<std::chrono::seconds>(now.at));
  return height >= kHorizon ? engine::Theme::Sun : engine::Theme::Dusk;
}

}  // namespace ui
