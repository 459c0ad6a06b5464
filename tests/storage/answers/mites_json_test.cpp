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

}  // namespace mites_json_test
