#include "storage/answers/mites_json.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>

namespace mites_json_test {

using nlohmann::json;

namespace {

json question() {
  return json::parse(R"({"name": "R",
    "colony": {"adults": 25000, "adult_mode": "fixed"},
    "laying": {"worker": 1200, "drone": [[0, 15], [30, 15]], "cages": []},
    "mites": {"wash_per_100": 3.0}, "days": 42, "threshold_per_100": 5,
    "treatment": {"start": 0, "rounds": 4, "interval": 5, "kill": 0.9},
    "schedules": [{"days": [0, 7, 14], "dose_g": 1, "preset": "field"}],
    "search": {"start": 0, "n_min": 1, "n_max": 3, "i_min": 5, "i_max": 7, "allowed_days": null,
               "kill": 0.5},
    "fit_kill": {"treatment": {"days": [0]}, "pre_day": 0, "post_day": 20, "observed_ratio": 0.9},
    "sampling": [{"type": "wash", "k": 9, "n": 300, "threshold_per_100": 3},
                 {"type": "yard", "k": [9, 3], "n": [300, 300], "colonies": 14},
                 {"type": "efficacy", "method": "henderson_tilton", "ta": [9, 300], "tb": [45, 300],
                  "ca": [60, 300], "cb": [40, 300]},
                 {"type": "efficacy", "method": "follow_up", "killed": 900, "follow_up": 100},
                 {"type": "board", "fallen": 20, "days": 2, "factor": 42}]})");
}

}  // namespace

TEST_CASE("a question with every part is answered with every part") {
  const auto text = storage::answer_mites(question().dump());
  REQUIRE(text.ok());
  const json out = json::parse(text.value());
  for (const char* key : {"name", "run", "crossing", "rebound", "untreated", "schedules", "search",
                          "fit_kill", "sampling"})
    CHECK_MESSAGE(out.contains(key), key);
  CHECK(out["run"]["total"].size() == 43);
  CHECK(out["run"]["natural_drop"].size() == 42);
  CHECK(out["run"]["total"][42].get<double>() == doctest::Approx(2069.707232).epsilon(1e-6));
  CHECK(out["untreated"]["total"].get<double>() == doctest::Approx(6584.690136).epsilon(1e-6));
  CHECK(out["sampling"].size() == 5);
  // Formula: 1 - (9/45)(40/60) with equal bees.
  CHECK(out["sampling"][2]["efficacy_pct"].get<double>() == doctest::Approx(86.6667).epsilon(1e-5));
}

TEST_CASE("bad questions are refused by the field that is wrong") {
  struct Row {
    std::string name, field, patch;  // RFC 7396 merge patch
  };
  const Row rows[] = {
      {"no bees", "colony.adults", R"({"colony": {"adults": 0}})"},
      {"unknown mode", "colony.adult_mode", R"({"colony": {"adult_mode": "free"}})"},
      {"unknown key", "weather", R"({"weather": 3})"},
      {"unknown parameter", "params.luck", R"({"params": {"luck": 1}})"},
      {"a share above 1", "params.emergence_loss", R"({"params": {"emergence_loss": 1.5}})"},
      {"negative days", "days", R"({"days": -1})"},
      {"curve out of order", "laying.worker", R"({"laying": {"worker": [[5, 1], [2, 1]]}})"},
      {"cage inverted", "laying.cages", R"({"laying": {"cages": [[9, 3]]}})"},
      {"two loads", "mites", R"({"mites": {"total": 4}})"},
      {"no laying", "laying", R"({"laying": null})"},
      {"kill above 1", "treatment.kill", R"({"treatment": {"kill": 1.1}})"},
      {"dose without preset", "treatment.preset", R"({"treatment": {"kill": null, "dose_g": 1}})"},
      {"interval of zero", "treatment.interval", R"({"treatment": {"interval": 0}})"},
      {"search inverted", "search.n_max", R"({"search": {"n_min": 4}})"},
      {"judged after the end", "evaluate_day", R"({"evaluate_day": 43})"},
      {"fit backwards", "fit_kill.post_day", R"({"fit_kill": {"pre_day": 30}})"},
      {"a wash without bees", "sampling[0].n",
       R"({"sampling": [{"type": "wash", "k": 0, "n": 0}]})"},
      {"more mites than sane", "sampling[0].k",
       R"({"sampling": [{"type": "wash", "k": 9000, "n": 10}]})"},
      {"unequal lists", "sampling[0].n",
       R"({"sampling": [{"type": "yard", "k": [1, 2], "n": [300]}]})"},
      {"certain beyond reason", "sampling[0].conf",
       R"({"sampling": [{"type": "wash", "k": 1, "n": 300, "conf": 1}]})"},
      {"unknown question", "sampling[0].type", R"({"sampling": [{"type": "guess"}]})"},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    json in = question();
    in.merge_patch(json::parse(row.patch));
    const auto answer = storage::answer_mites(in.dump());
    REQUIRE_FALSE(answer.ok());
    CHECK_MESSAGE(answer.status().message().starts_with(row.field + ":"),
                  answer.status().message());
  }
  CHECK_FALSE(storage::answer_mites("[1]").ok());
  CHECK_FALSE(storage::answer_mites("{").ok());
}

namespace {

json learn_question() {
  return json::parse(R"({"learn": {"at_dose_g": [1, 2], "courses": [
    {"colony": {"adults": 25000, "adult_mode": "fixed"}, "laying": {"worker": 1200, "drone": 15},
     "mites": {"wash_per_100": 3}, "treatment": {"start": 0, "rounds": 7, "interval": 5, "dose_g": 1},
     "pre_day": 0, "post_day": 35, "pre": [[427, 8047]], "post": [[162, 6993]]}]}})");
}

}  // namespace

// The values stand in tests/reference/learn_kill_test.cpp.
TEST_CASE("courses teach a kill, which is answered for each dose that is asked") {
  const auto text = storage::answer_mites(learn_question().dump());
  REQUIRE(text.ok());
  const json out = json::parse(text.value());
  CHECK(out.size() == 1);
  CHECK(out["learn"]["phi"] == json({3.0}));
  CHECK(out["learn"]["z"]["p50"].get<double>() == doctest::Approx(0.1588878293).epsilon(1e-9));
  REQUIRE(out["learn"]["kill"].size() == 2);
  CHECK(out["learn"]["kill"][0]["p10"].get<double>() ==
        doctest::Approx(0.5989619383).epsilon(1e-9));
  CHECK(out["learn"]["kill"][1]["dose_g"] == 2);
  json none = learn_question();
  none["learn"]["courses"] = json::array();
  CHECK(json::parse(storage::answer_mites(none.dump()).value())["learn"]["phi"].empty());
}

TEST_CASE("a bad course is refused by the field that is wrong") {
  struct Row {
    std::string name, field, at, value;
  };
  const std::string first = "/learn/courses/0/";
  const Row rows[] = {
      {"no dose", "learn.courses[0].treatment.dose_g", first + "treatment/dose_g", "0"},
      {"a kill", "learn.courses[0].treatment.kill", first + "treatment/kill", "0.5"},
      {"washed backwards", "learn.courses[0].post_day", first + "post_day", "0"},
      {"one wash alone", "learn.courses[0].post", first + "post", "[]"},
      {"no bees", "learn.courses[0].pre[0]", first + "pre/0", "[3, 0]"},
      {"half a mite", "learn.courses[0].pre[0]", first + "pre/0", "[0.5, 300]"},
      {"no mites in the model", "learn.courses[0].mites", first + "mites", R"({"total": 0})"},
      {"a wrong constant", "learn.courses[0].params.luck", first + "params", R"({"luck": 1})"},
      {"no queen", "learn.courses[0].laying", first + "laying", "3"},
      {"a dose of nothing", "learn.at_dose_g", "/learn/at_dose_g/0", "0"},
      {"no list", "learn.courses", "/learn/courses", "3"},
      {"a place", "learn.courses[0].place", first + "place", "1"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    json bad = learn_question();
    bad[json::json_pointer(row.at)] = json::parse(row.value);
    const auto text = storage::answer_mites(bad.dump());
    REQUIRE_FALSE(text.ok());
    CHECK(text.status().message().find(row.field + ":") == 0);
  }
}

}  // namespace mites_json_test
