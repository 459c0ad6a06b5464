#include "storage/bundle/yards_geojson.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "engine/farm/queries.h"

namespace storage {
namespace {

using Json = nlohmann::ordered_json;
using engine::Colony;
using engine::Farm;
using engine::Yard;

constexpr double kDegree = std::numbers::pi / 180.0;
// WGS 84 (NGA.STND.0036): semi-major axis in metres, and flattening.
constexpr double kAxis = 6378137.0;
constexpr double kFlattening = 1.0 / 298.257223563;

double seven_decimals(double degrees) { return std::round(degrees * 1e7) / 1e7; }

Json point(Degrees at) {
  return {{"type", "Point"}, {"coordinates", {seven_decimals(at.lon), seven_decimals(at.lat)}}};
}

Json feature(const std::string& id, Json geometry, Json properties) {
  return {{"type", "Feature"},
          {"id", id},
          {"geometry", std::move(geometry)},
          {"properties", std::move(properties)}};
}

Json yard_feature(const Farm& farm, const Yard& yard) {
  Json geometry = nullptr;
  if (yard.place) geometry = point(moved(*yard.place, {}));
  return feature(text(yard.id), geometry,
                 {{"kind", "yard"},
                  {"name", yard.name},
                  {"time_zone", yard.zone},
                  {"colonies", engine::colonies_of(farm, yard.id).size()},
                  {"note", yard.note}});
}

Json colony_feature(const Yard& yard, const Colony& colony) {
  Json geometry = nullptr;
  if (yard.place && colony.spot) geometry = point(moved(*yard.place, *colony.spot));
  return feature(text(colony.id), geometry,
                 {{"kind", "colony"},
                  {"name", colony.name},
                  {"yard", yard.name},
                  {"yard_id", text(yard.id)},
                  {"brood_boxes", colony.brood_boxes},
                  {"supers_on", colony.supers_on},
                  {"note", colony.note}});
}

}  // namespace

Degrees moved(engine::Place origin, engine::Spot spot) {
  const double lat = origin.lat_udeg / 1e6;
  const double lon = origin.lon_udeg / 1e6;
  const double e2 = kFlattening * (2.0 - kFlattening);
  const double s = std::sin(lat * kDegree);
  const double w = std::sqrt(1.0 - e2 * s * s);
  const double meridian = kAxis * (1.0 - e2) / (w * w * w);  // metres a radian, north
  const double parallel = kAxis / w * std::cos(lat * kDegree);
  const double north = spot.y_cm / 100.0 / meridian / kDegree;
  // At a pole every way leads south; east has no meaning there.
  const double east = parallel > 1.0 ? spot.x_cm / 100.0 / parallel / kDegree : 0.0;
  return {std::clamp(lat + north, -90.0, 90.0), std::remainder(lon + east, 360.0)};
}

std::string yards_geojson(const Farm& farm) {
  Json features = Json::array();
  for (const Yard* yard : engine::yards(farm)) {
    features.push_back(yard_feature(farm, *yard));
    for (const Colony* colony : engine::colonies_of(farm, yard->id))
      features.push_back(colony_feature(*yard, *colony));
  }
  const Json all = {{"type", "FeatureCollection"}, {"features", std::move(features)}};
  return all.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace storage
