// storage/bundle/yards_geojson.h -- the yards and their colonies as a map: GeoJSON (RFC 7946).
//
// One Point feature for each yard and colony that is not lost, WGS 84, longitude first, seven
// decimals (about a centimetre). A colony stands where its spot is, measured from its yard's place.
// Where a place or a spot is not known the feature has no geometry (null, RFC 7946 section 3.2):
// better no point than a wrong one.
#pragma once
#include <string>

#include "engine/farm/farm.h"

namespace storage {

[[nodiscard]] std::string yards_geojson(const engine::Farm& farm);

struct Degrees {
  double lat = 0;
  double lon = 0;  // -180 to 180
};
// The point `spot` east and north of `origin`, by the radii of curvature of the WGS 84 ellipsoid.
[[nodiscard]] Degrees moved(engine::Place origin, engine::Spot spot);

}  // namespace storage
