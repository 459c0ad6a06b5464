#include "storage/answers/order_json.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

namespace order_json_test {

namespace {

nlohmann::json yard() {
  return nlohmann::json::parse(R"({"walk_mps": 1.1, "gate": [-8, -5], "vaporizers": 1, "cloths": 3,
    "seal_s": 600, "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
    "colonies": [{"id": "A1", "at": [0, 0], "dwell_s": 90}, {"id": "A2", "at": [2, 0], "dwell_s": 95}]})");
}

}  // namespace

TEST_CASE("a yard is read, planned and written with all that was asked") {
  nlohmann::json in = yard();
  in["colonies"][0]["stage"] = "covered";
  in["colonies"][0]["since_s"] = 100;
  in["colonies"][0]["cloth"] = 2;
  in["now_s"] = 150;
  in["operator_at"] = {0, 0};
  in["wind_from_deg"] = 270;
  const auto c = storage::read_order_case(in.dump());
  REQUIRE(c.ok());
  const auto out =
      nlohmann::json::parse(storage::order_plan_json(c.value(), engine::plan_order(c.value())));
  for (const char* key :
       {"finish_s", "lower_bound_s", "shortest_seal_s", "downwind_s", "proven_optimal", "steps"})
    CHECK(out.contains(key));
  REQUIRE(out["steps"].size() == 4);
  for (const auto& step : out["steps"])
    if (step["do"] == "uncover" && step["colony"] == "A1") CHECK(step["cloth"] == 2);
  CHECK_FALSE(out["steps"][0].contains("cloth"));
}

TEST_CASE("bad yards are refused by the field that is wrong") {
  struct Row {
    std::string name, field, patch;  // RFC 7396 merge patch
  };
  const Row rows[] = {
      {"unknown key", "wind_from", R"({"wind_from": 3})"},
      {"missing number", "walk_mps", R"({"walk_mps": null})"},
      {"text for a number", "seal_s", R"({"seal_s": "600"})"},
      {"negative handling", "handling_s.uncover", R"({"handling_s": {"uncover": -6}})"},
      {"unknown handling", "handling_s.smile", R"({"handling_s": {"smile": 6}})"},
      {"no cloth", "cloths", R"({"cloths": 0})"},
      {"cloths without end", "cloths", R"({"cloths": 1000000000})"},
      {"vaporizers without end", "vaporizers", R"({"vaporizers": 10001})"},
      {"a dose that takes for ever", "handling_s.load_and_set",
       R"({"handling_s": {"load_and_set": 1e308}})"},
      {"a dwell beyond a lifetime", "colonies[0].dwell_s",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1e12}]})"},
      {"a colony beyond the earth", "colonies[0].at",
       R"({"colonies": [{"id":"A","at":[0,1e200],"dwell_s":1}]})"},
      {"set before anybody lived", "colonies[0].since_s",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1,"stage":"vapor","since_s":-1e300}]})"},
      {"a snail", "walk_mps", R"({"walk_mps": 1e-300})"},
      {"half a vaporizer", "vaporizers", R"({"vaporizers": 1.5})"},
      {"colonies that are none", "colonies", R"({"colonies": 3})"},
      {"gate with one number", "gate", R"({"gate": [1]})"},
      {"name twice", "colonies[1].id",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1},{"id":"A","at":[0,0],"dwell_s":1}]})"},
      {"stage without since", "colonies[0].since_s",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1,"stage":"vapor"}]})"},
      {"unknown stage", "colonies[0].stage",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1,"stage":"asleep"}]})"},
      {"unknown colony key", "colonies[0].mood",
       R"({"colonies": [{"id":"A","at":[0,0],"dwell_s":1,"mood":"good"}]})"},
  };
  REQUIRE(storage::read_order_case(yard().dump()).ok());
  for (const Row& row : rows) {
    INFO(row.name);
    nlohmann::json in = yard();
    in.merge_patch(nlohmann::json::parse(row.patch));
    const auto c = storage::read_order_case(in.dump());
    REQUIRE_FALSE(c.ok());
    CHECK(c.status().message().starts_with(row.field + ":"));
  }
  CHECK_FALSE(storage::read_order_case("{").ok());
  CHECK_FALSE(storage::read_order_case(R"({"walk_mps": 1e999})").ok());
}

}  // namespace order_json_test
