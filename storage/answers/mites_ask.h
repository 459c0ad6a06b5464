// storage/answers/mites_ask.h -- reading the question; see mites_json.h. Internal to storage.
#pragma once
#include <limits>
#include <optional>
#include <variant>
#include <vector>

#include "engine/mites/board.h"
#include "engine/mites/efficacy.h"
#include "engine/mites/fit_kill.h"
#include "engine/mites/learn_kill.h"
#include "engine/mites/search.h"
#include "engine/mites/yard_counts.h"
#include "storage/text/json_fields.h"

namespace storage {

using json_fields::Reader;

inline constexpr double kAny = std::numeric_limits<double>::max();

struct FitAsk {
  engine::mites::Treatment treatment;
  int pre_day = 0, post_day = 0;
  double ratio = 0;
};

struct Simulation {
  engine::mites::Colony colony;
  engine::mites::MiteLoad load;
  int days = 0;
  int evaluate_day = 0;
  engine::mites::Treatment treatment;
  std::optional<std::vector<engine::mites::Treatment>> schedules;
  std::optional<engine::mites::SearchAsk> search;
  std::optional<FitAsk> fit;
  std::optional<double> threshold;
};

struct WashAsk {
  engine::mites::Wash wash;
  double conf = 0.95;
  std::optional<engine::mites::Cutoff> cutoff;
};
struct EfficacyAsk {
  engine::mites::EfficacyMethod method = engine::mites::EfficacyMethod::HendersonTilton;
  engine::mites::EfficacyCounts counts;
  double phi = 1, conf = 0.95;
};
struct FollowUpAsk {
  std::int64_t killed = 0, by_follow_up = 0;
  double conf = 0.95;
};
struct BoardAsk {
  engine::mites::BoardCount count;
  double factor = 0, uncertainty = 2, conf = 0.95;
};
using SamplingAsk =
    std::variant<WashAsk, engine::mites::YardSample, EfficacyAsk, FollowUpAsk, BoardAsk>;

struct LearnAsk {
  engine::mites::Constants constants;  // of the doses that are asked about
  std::vector<double> doses_g;
  std::vector<engine::mites::TaughtCourse> courses;
};

struct MitesAsk {
  std::optional<std::string> name;
  std::optional<Simulation> simulation;
  std::optional<std::vector<SamplingAsk>> sampling;
  std::optional<LearnAsk> learn;
};

// `wrong` stays empty when all is well.
[[nodiscard]] MitesAsk read_mites_ask(const nlohmann::json& value, std::string& wrong);
// What follows reads one part each; a missing part that is needed is what is wrong.
// "params", of the constants that it names.
void read_params(Reader& root, engine::mites::Constants& c);
// The colony with its curves, and its mites on day 0.
void read_model(Reader& f, engine::mites::Colony& colony, engine::mites::MiteLoad& load);
// The days of a treatment, and the share of the mites that is away.
void read_days(Reader& f, engine::mites::Treatment& t);
[[nodiscard]] double read_away(Reader& f);
void read_learn(Reader& root, MitesAsk& to);                      // mites_ask_learn.cpp
[[nodiscard]] std::vector<SamplingAsk> read_sampling(Reader& f);  // mites_ask_counts.cpp
// A list of [mites, bees]; likewise.
[[nodiscard]] std::vector<engine::mites::Wash> read_washes(Reader& f, const char* key);

}  // namespace storage
