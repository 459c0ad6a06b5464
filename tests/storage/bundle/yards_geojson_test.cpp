#include "storage/bundle/yards_geojson.h"

#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/support/payload_fixture.h"

namespace yards_geojson_test {

using namespace fixture;

// One degree of latitude at 45 degrees is 111 131.8 m and one of longitude 78 846.8 m on WGS 84:
// the series of the NGA length-of-a-degree tables (111132.954 - 559.822 cos 2p + 1.175 cos 4p;
// 111412.84 cos p - 93.5 cos 3p + 0.118 cos 5p), from memory.
TEST_CASE("a spot lies as many metres from its yard as it was paced") {
  const storage::Degrees d = storage::moved({45'000'000, -120'000'000}, {1'000'000, -1'000'000});
  CHECK(std::abs((45.0 - d.lat) * 111'131.8 - 10'000.0) < 10.0);
  CHECK(std::abs((d.lon + 120.0) * 78'846.8 - 10'000.0) < 10.0);
}

TEST_CASE("the date line and the poles do not break a place") {
  const storage::Degrees line = storage::moved({0, 180'000'000}, {100'000, 0});
  CHECK(line.lon < -179.9);
  CHECK(line.lon > -180.0);
  const storage::Degrees pole = storage::moved({90'000'000, 10'000'000}, {100'000, 100'000});
  CHECK(pole.lat == doctest::Approx(90.0));
  CHECK(pole.lon == doctest::Approx(10.0));
}

TEST_CASE("yards and colonies are points, longitude first; unknown places are null") {
  const auto all = nlohmann::json::parse(storage::yards_geojson(evening().farm));
  CHECK(all["type"] == "FeatureCollection");
  REQUIRE(all["features"].size() == 9);
  CHECK(all["features"][0]["geometry"].is_null());
  const auto& yard = all["features"][1];
  CHECK(yard["properties"]["name"] == "Thistle Bank");
  CHECK(yard["properties"]["colonies"] == 7);
  CHECK(yard["geometry"]["coordinates"][0] == -120.0);
  CHECK(yard["geometry"]["coordinates"][1] == 45.0);
  const auto& colony = all["features"][2];
  CHECK(colony["properties"]["kind"] == "colony");
  CHECK(colony["geometry"]["coordinates"][0] > -120.0);
  CHECK(colony["geometry"]["coordinates"][1] < 45.0);
}

TEST_CASE("a name that is not UTF-8 cannot break the file") {
  Pen pen = evening(
      "A\xff"
      "1");
  CHECK(nlohmann::json::accept(storage::yards_geojson(pen.farm)));
}

}  // namespace yards_geojson_test
