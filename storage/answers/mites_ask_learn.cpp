// Courses from which the keeper's kill is to be learned.
#include <cmath>

#include "storage/answers/mites_ask.h"
#include "storage/answers/mites_json.h"

namespace storage {
namespace {

using namespace engine::mites;
using nlohmann::json;

void read_pairs(Reader& f, std::vector<WashPair>& pairs) {
  const std::vector<Wash> before = read_washes(f, "pre"), after = read_washes(f, "post");
  if (before.size() != after.size())
    return void(f.fail(f.called("post"), "must have as many washes as pre"));
  for (std::size_t i = 0; i < before.size(); ++i) pairs.push_back({before[i], after[i]});
}

void read_taught_treatment(Reader& f, TaughtCourse& c) {
  const json* value = f.need("treatment");
  if (value == nullptr) return;
  Reader t(*value, f.called("treatment"), f.wrong());
  if (!t.known({"start", "rounds", "interval", "days", "dose_g", "foragers_away", "forager_load"}))
    return;
  read_days(t, c.treatment);
  c.treatment.away = read_away(t);
  t("dose_g", c.dose_g);
  if (t.fine() && !teaches_at(c.dose_g, c.colony.constants))
    t.fail(t.called("dose_g"), "must give kills between 0 and 1");
}

TaughtCourse read_taught(const json& value, const std::string& name, std::string& wrong) {
  TaughtCourse c;
  Reader f(value, name, wrong);
  if (!f.known({"params", "colony", "laying", "mites", "immigration", "phoretic_mortality",
                "treatment", "pre_day", "post_day", "pre", "post"}))
    return c;
  read_model(f, c.colony, c.load);
  read_taught_treatment(f, c);
  f.whole("pre_day", c.pre_day);
  f.whole("post_day", c.post_day);
  if (c.pre_day < 0) f.fail(f.called("pre_day"), "must not be negative");
  if (c.post_day <= c.pre_day || c.post_day > kMostModelDays)
    f.fail(f.called("post_day"), "must be after pre_day and not after day 3660");
  read_pairs(f, c.pairs);
  if (f.fine() && !std::isfinite(modelled_ratio(c, 0)))
    f.fail(f.called("mites"), "leave no mite or no bee to compare on pre_day and post_day");
  return c;
}

void read_learn_doses(Reader& f, LearnAsk& ask) {
  const json* doses = f.need("at_dose_g");
  if (doses == nullptr) return;
  if (!doses->is_array()) return void(f.fail("learn.at_dose_g", "must be a list of grams"));
  for (const json& one : *doses) {
    if (!f.take("learn.at_dose_g", one, ask.doses_g.emplace_back())) return;
    if (!teaches_at(ask.doses_g.back(), ask.constants))
      return void(f.fail("learn.at_dose_g", "must give kills between 0 and 1"));
  }
}

}  // namespace

void read_learn(Reader& root, MitesAsk& to) {
  const json* value = root.find("learn");
  if (value == nullptr) return;
  Reader f(*value, "learn", root.wrong());
  if (!f.known({"params", "at_dose_g", "courses"})) return;
  LearnAsk& ask = to.learn.emplace();
  read_params(f, ask.constants);
  read_learn_doses(f, ask);
  const json* courses = f.need("courses");
  if (courses == nullptr) return;
  if (!courses->is_array()) return void(f.fail("learn.courses", "must be a list of courses"));
  for (std::size_t i = 0; i < courses->size() && f.fine(); ++i)
    ask.courses.push_back(
        read_taught((*courses)[i], "learn.courses[" + std::to_string(i) + "]", f.wrong()));
}

}  // namespace storage
