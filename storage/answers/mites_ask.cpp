#include "storage/answers/mites_ask.h"

#include "engine/core/names.h"
#include "storage/answers/mites_json.h"

namespace storage {

using namespace engine::mites;
using nlohmann::json;

void read_days(Reader& f, Treatment& t) {
  if (const json* list = f.find("days")) {
    for (const char* other : {"start", "rounds", "interval"})
      if (f.find(other) != nullptr) f.fail(f.called(other), "does not go with days");
    if (!list->is_array()) return void(f.fail(f.called("days"), "must be a list of days"));
    for (const json& day : *list) {
      int d = 0;
      if (!f.take(f.called("days"), day, d)) return;
      if (d < 0) return void(f.fail(f.called("days"), "must not be negative"));
      t.days.push_back(d);
    }
    return;
  }
  int start = 0, rounds = 0, interval = 1;
  f.whole("start", start);
  f.whole("rounds", rounds);
  if (rounds > 1 || f.find("interval") != nullptr) f.whole("interval", interval);
  if (start < 0) f.fail(f.called("start"), "must not be negative");
  if (rounds < 0 || rounds > kMostModelDays) f.fail(f.called("rounds"), "must be from 0 to 3660");
  if (interval < 1 || interval > kMostModelDays)
    f.fail(f.called("interval"), "must be from 1 to 3660");
  if (f.fine()) t.days = spaced_days(start, rounds, interval);
}

double read_away(Reader& f) {
  double out = 0, load = kForagerLoad;
  f.within("foragers_away", out, 0, 1);
  f.within("forager_load", load, 0, kAny);
  return away_share(out, load);
}

namespace {

// By kill, or by dose and preset.
double read_kill(Reader& f, const Constants& c) {
  double kill = 0, dose = 0;
  const bool by_dose = f.find("dose_g") != nullptr;
  if (by_dose && f.find("kill") != nullptr) f.fail(f.called("dose_g"), "does not go with kill");
  if (!by_dose) {
    if (f.find("preset") != nullptr) f.fail(f.called("preset"), "goes with dose_g");
    f.need("kill");
    f.within("kill", kill, 0, 1);
    return kill;
  }
  f.within("dose_g", dose, 0, kAny);
  std::string preset;
  f("preset", preset);
  const auto reach = engine::from_name<Reach>(preset);
  if (!reach) f.fail(f.called("preset"), "must be field or exposed");
  return kill_of_dose(dose, reach.value_or(Reach::Field), c);
}

Treatment read_treatment(const json& value, const std::string& name, const Constants& c,
                         std::string& wrong, bool wants_kill = true) {
  Treatment t;
  Reader f(value, name, wrong);
  if (!f.known({"start", "rounds", "interval", "days", "kill", "dose_g", "preset", "foragers_away",
                "forager_load"}))
    return t;
  read_days(f, t);
  if (wants_kill || f.find("kill") != nullptr || f.find("dose_g") != nullptr)
    t.kill = read_kill(f, c);
  t.away = read_away(f);
  return t;
}

void read_schedules(Reader& root, Simulation& s) {
  const json* list = root.find("schedules");
  if (list == nullptr) return;
  if (!list->is_array()) return void(root.fail("schedules", "must be a list of treatments"));
  s.schedules.emplace();
  for (std::size_t i = 0; i < list->size() && root.fine(); ++i)
    s.schedules->push_back(read_treatment((*list)[i], "schedules[" + std::to_string(i) + "]",
                                          s.colony.constants, root.wrong()));
}

void read_allowed(Reader& f, SearchAsk& ask) {
  const json* list = f.find("allowed_days");
  if (list == nullptr || list->is_null()) return;
  if (!list->is_array()) return void(f.fail("search.allowed_days", "must be a list of days"));
  ask.allowed.emplace();
  for (const json& day : *list) {
    int d = 0;
    if (!f.take("search.allowed_days", day, d)) return;
    ask.allowed->push_back(d);
  }
}

void read_search(Reader& root, Simulation& s) {
  const json* value = root.find("search");
  if (value == nullptr) return;
  Reader f(*value, "search", root.wrong());
  if (!f.known({"start", "n_min", "n_max", "i_min", "i_max", "allowed_days", "min_interval",
                "max_rounds", "tail_days", "tolerance_pp", "kill", "dose_g", "preset",
                "foragers_away", "forager_load"}))
    return;
  SearchAsk& ask = s.search.emplace();
  f.whole("start", ask.start);
  f.whole("n_min", ask.n_min);
  f.whole("n_max", ask.n_max);
  f.whole("i_min", ask.i_min);
  f.whole("i_max", ask.i_max);
  read_allowed(f, ask);
  f.within("min_interval", ask.min_interval, 1, kMostModelDays);
  if (const json* most = f.find("max_rounds"); most != nullptr && !most->is_null())
    f.within("max_rounds", ask.max_rounds.emplace(0), 1, kMostModelDays);
  f.within("tail_days", ask.tail_days, 0, kMostModelDays);
  f.within("tolerance_pp", ask.tolerance_pp, 0, 100);
  ask.kill = read_kill(f, s.colony.constants);
  ask.away = read_away(f);
  if (ask.start < 0) f.fail("search.start", "must not be negative");
  if (ask.n_min < 1) f.fail("search.n_min", "must be at least 1");
  if (ask.n_max < ask.n_min || ask.n_max > 100) f.fail("search.n_max", "must be from n_min to 100");
  if (ask.i_min < 1) f.fail("search.i_min", "must be at least 1");
  if (ask.i_max < ask.i_min || ask.i_max > 366) f.fail("search.i_max", "must be from i_min to 366");
}

void read_fit(Reader& root, Simulation& s) {
  const json* value = root.find("fit_kill");
  if (value == nullptr) return;
  Reader f(*value, "fit_kill", root.wrong());
  if (!f.known({"treatment", "pre_day", "post_day", "observed_ratio"})) return;
  FitAsk& fit = s.fit.emplace();
  if (const json* t = f.need("treatment"))
    fit.treatment =
        read_treatment(*t, "fit_kill.treatment", s.colony.constants, root.wrong(), false);
  f.whole("pre_day", fit.pre_day);
  f.whole("post_day", fit.post_day);
  f("observed_ratio", fit.ratio);
  if (fit.pre_day < 0 || fit.pre_day > s.days) f.fail("fit_kill.pre_day", "must be from 0 to days");
  if (fit.post_day <= fit.pre_day || fit.post_day > s.days)
    f.fail("fit_kill.post_day", "must be after pre_day and not after days");
  if (fit.ratio < 0) f.fail("fit_kill.observed_ratio", "must not be negative");
}

void read_days_to_run(Reader& f, Simulation& s) {
  f.whole("days", s.days);
  if (s.days < 0 || s.days > kMostModelDays) f.fail("days", "must be from 0 to 3660");
  s.evaluate_day = s.days;
  f.within("evaluate_day", s.evaluate_day, 0, std::max(0, s.days));
}

void read_simulation(Reader& f, Simulation& s) {
  read_model(f, s.colony, s.load);
  read_days_to_run(f, s);
  if (const json* t = f.find("treatment"); t != nullptr && !t->is_null())
    s.treatment = read_treatment(*t, "treatment", s.colony.constants, f.wrong());
  read_schedules(f, s);
  read_search(f, s);
  read_fit(f, s);
  double threshold = 0;
  if (f.find("threshold_per_100") != nullptr) {
    f("threshold_per_100", threshold);
    if (threshold <= 0) f.fail("threshold_per_100", "must be above 0");
    s.threshold = threshold;
  }
}

}  // namespace

MitesAsk read_mites_ask(const json& value, std::string& wrong) {
  MitesAsk ask;
  Reader f(value, "", wrong);
  if (!f.known({"name", "params", "colony", "laying", "mites", "days", "immigration",
                "phoretic_mortality", "treatment", "schedules", "evaluate_day", "search",
                "fit_kill", "threshold_per_100", "sampling", "learn"}))
    return ask;
  f("name", ask.name);
  bool simulates = false;
  for (const auto& [key, part] : value.items())
    simulates =
        simulates || (key != "name" && key != "sampling" && key != "params" && key != "learn");
  if (simulates) read_simulation(f, ask.simulation.emplace());
  if (!simulates) {
    Constants checked;
    read_params(f, checked);
  }
  read_learn(f, ask);
  if (f.find("sampling") != nullptr) ask.sampling = read_sampling(f);
  return ask;
}

}  // namespace storage
