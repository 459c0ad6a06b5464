#include "storage/answers/mites_ask.h"

#include <limits>

#include "engine/core/names.h"
#include "storage/answers/mites_json.h"

namespace storage {
namespace {

using namespace engine::mites;
using nlohmann::json;

constexpr double kAny = std::numeric_limits<double>::max();

// A number or [[day, value], ...].
void read_curve(Fields& f, const char* key, Curve& to, double low) {
  const json* value = f.find(key);
  if (value == nullptr) return;
  const std::string field = f.called(key);
  const auto in_range = [&](double v) {
    return v >= low || f.fail(field, low > 0 ? "must be above 0" : "must not be negative");
  };
  double constant = 0;
  if (value->is_number()) {
    if (f.take(field, *value, constant) && in_range(constant)) to = Curve(constant);
    return;
  }
  if (!value->is_array() || value->empty())
    return void(f.fail(field, "must be a number or a list of [day, value]"));
  std::vector<CurvePoint> points;
  for (const json& pair : *value) {
    CurvePoint p;
    if (!pair.is_array() || pair.size() != 2)
      return void(f.fail(field, "must be a list of [day, value]"));
    if (!f.take(field, pair[0], p.day) || !f.take(field, pair[1], p.value) || !in_range(p.value))
      return;
    if (!points.empty() && p.day <= points.back().day)
      return void(f.fail(field, "must have its days in rising order"));
    points.push_back(p);
  }
  to = Curve(std::move(points));
}

void read_brood(Fields& f, const char* cap, const char* emerge, BroodDays& to) {
  constexpr int kLongest = 60;
  f.whole_in(cap, to.cap, 1, kLongest);
  f.whole_in(emerge, to.emerge, 1, kLongest);
  if (to.emerge < to.cap + 2)
    f.fail(f.called(emerge), "must be at least two days after the capping");
}

void read_params(Fields& root, Constants& c) {
  const json* value = root.find("params");
  if (value == nullptr) return;
  Fields f(*value, "params", root.wrong());
  if (!f.known({"worker_cap_day",
                "worker_emerge_day",
                "drone_cap_day",
                "drone_emerge_day",
                "early_share",
                "late_share",
                "worker_open_survival",
                "drone_open_survival",
                "bee_mass_g",
                "invasion_worker_g",
                "invasion_drone_g",
                "mother_survival",
                "daughters_worker",
                "daughters_drone",
                "emergence_loss",
                "residual_days",
                "residual_rate",
                "wash_recovery",
                "nest_bias",
                "warmup_days",
                "kill_max",
                "dose_scale_exposed_g",
                "dose_scale_field_g"}))
    return;
  read_brood(f, "worker_cap_day", "worker_emerge_day", c.worker);
  read_brood(f, "drone_cap_day", "drone_emerge_day", c.drone);
  struct Share {
    const char* key;
    double* to;
  };
  for (const auto& [key, to] : {Share{"early_share", &c.early_share},
                                {"late_share", &c.late_share},
                                {"worker_open_survival", &c.worker_survival},
                                {"drone_open_survival", &c.drone_survival},
                                {"mother_survival", &c.mother_survival},
                                {"emergence_loss", &c.emergence_loss},
                                {"kill_max", &c.kill_max}})
    f.number_in(key, *to, 0, 1);
  for (const auto& [key, to] : {Share{"invasion_worker_g", &c.invasion_worker_g},
                                {"invasion_drone_g", &c.invasion_drone_g},
                                {"daughters_worker", &c.daughters_worker},
                                {"daughters_drone", &c.daughters_drone},
                                {"residual_rate", &c.residual_rate}})
    f.number_in(key, *to, 0, kAny);
  constexpr double kLeast = 1e-9;  // above 0
  for (const auto& [key, to] : {Share{"bee_mass_g", &c.bee_mass_g},
                                {"wash_recovery", &c.wash_recovery},
                                {"nest_bias", &c.nest_bias},
                                {"dose_scale_exposed_g", &c.dose_scale_exposed_g},
                                {"dose_scale_field_g", &c.dose_scale_field_g}})
    f.number_in(key, *to, kLeast, kAny);
  f.whole_in("residual_days", c.residual_days, 0, kMostModelDays);
  f.whole_in("warmup_days", c.warmup_days, 0, kMostModelDays);
  if (c.early_share + c.late_share > 1 || c.early_share >= 1)
    f.fail("params.early_share", "with late_share must not be above 1, and itself below 1");
}

void read_colony(Fields& root, Colony& c) {
  const json* value = root.need("colony");
  if (value == nullptr) return;
  Fields f(*value, "colony", root.wrong());
  if (!f.known({"adults", "adult_mode", "lifespan"})) return;
  f.number("adults", c.adults);
  if (f.fine() && c.adults <= 0) f.fail("colony.adults", "must be above 0");
  std::string mode = "dynamic";
  f.text("adult_mode", mode);
  if (mode != "dynamic" && mode != "fixed") f.fail("colony.adult_mode", "must be dynamic or fixed");
  c.adults_fixed = mode == "fixed";
  read_curve(f, "lifespan", c.lifespan, 1e-9);
}

void read_cages(Fields& f, std::vector<Cage>& cages) {
  const json* list = f.find("cages");
  if (list == nullptr || list->is_null()) return;
  if (!list->is_array()) return void(f.fail("laying.cages", "must be a list of [from, to]"));
  for (const json& pair : *list) {
    Cage cage;
    if (!pair.is_array() || pair.size() != 2)
      return void(f.fail("laying.cages", "must be a list of [from, to]"));
    if (!f.take("laying.cages", pair[0], cage.from) || !f.take("laying.cages", pair[1], cage.until))
      return;
    if (cage.until <= cage.from) return void(f.fail("laying.cages", "must end after they begin"));
    cages.push_back(cage);
  }
}

void read_laying(Fields& root, Colony& c) {
  const json* value = root.need("laying");
  if (value == nullptr) return;
  Fields f(*value, "laying", root.wrong());
  if (!f.known({"worker", "drone", "cages"})) return;
  read_curve(f, "worker", c.worker_eggs, 0);
  read_curve(f, "drone", c.drone_eggs, 0);
  read_cages(f, c.cages);
}

void read_load(Fields& root, MiteLoad& load) {
  const json* value = root.need("mites");
  if (value == nullptr) return;
  Fields f(*value, "mites", root.wrong());
  if (!f.known({"wash_per_100", "phoretic", "total"})) return;
  if (value->size() != 1)
    return void(f.fail("mites", "must hold one of wash_per_100, phoretic and total"));
  const std::string key = value->begin().key();
  load.unit = key == "phoretic" ? LoadUnit::OnBees
              : key == "total"  ? LoadUnit::All
                                : LoadUnit::WashPer100;
  constexpr double kMostMites = 1e9;
  f.number_in(key.c_str(), load.value, 0, kMostMites);
}

// ---- treatments ----

void read_days(Fields& f, Treatment& t) {
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

double read_away(Fields& f) {
  double out = 0, load = kForagerLoad;
  f.number_in("foragers_away", out, 0, 1);
  f.number_in("forager_load", load, 0, kAny);
  return away_share(out, load);
}

// By kill, or by dose and preset.
double read_kill(Fields& f, const Constants& c) {
  double kill = 0, dose = 0;
  const bool by_dose = f.find("dose_g") != nullptr;
  if (by_dose && f.find("kill") != nullptr) f.fail(f.called("dose_g"), "does not go with kill");
  if (!by_dose) {
    if (f.find("preset") != nullptr) f.fail(f.called("preset"), "goes with dose_g");
    f.need("kill");
    f.number_in("kill", kill, 0, 1);
    return kill;
  }
  f.number_in("dose_g", dose, 0, kAny);
  std::string preset;
  f.need("preset");
  f.text("preset", preset);
  const auto reach = engine::from_name<Reach>(preset);
  if (!reach) f.fail(f.called("preset"), "must be field or exposed");
  return kill_of_dose(dose, reach.value_or(Reach::Field), c);
}

Treatment read_treatment(const json& value, const std::string& name, const Constants& c,
                         std::string& wrong, bool wants_kill = true) {
  Treatment t;
  Fields f(value, name, wrong);
  if (!f.known({"start", "rounds", "interval", "days", "kill", "dose_g", "preset", "foragers_away",
                "forager_load"}))
    return t;
  read_days(f, t);
  if (wants_kill || f.find("kill") != nullptr || f.find("dose_g") != nullptr)
    t.kill = read_kill(f, c);
  t.away = read_away(f);
  return t;
}

void read_schedules(Fields& root, Simulation& s) {
  const json* list = root.find("schedules");
  if (list == nullptr) return;
  if (!list->is_array()) return void(root.fail("schedules", "must be a list of treatments"));
  s.schedules.emplace();
  for (std::size_t i = 0; i < list->size() && root.fine(); ++i)
    s.schedules->push_back(read_treatment((*list)[i], "schedules[" + std::to_string(i) + "]",
                                          s.colony.constants, root.wrong()));
}

void read_allowed(Fields& f, SearchAsk& ask) {
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

void read_search(Fields& root, Simulation& s) {
  const json* value = root.find("search");
  if (value == nullptr) return;
  Fields f(*value, "search", root.wrong());
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
  f.whole_in("min_interval", ask.min_interval, 1, kMostModelDays);
  if (const json* most = f.find("max_rounds"); most != nullptr && !most->is_null())
    f.whole_in("max_rounds", ask.max_rounds.emplace(0), 1, kMostModelDays);
  f.whole_in("tail_days", ask.tail_days, 0, kMostModelDays);
  f.number_in("tolerance_pp", ask.tolerance_pp, 0, 100);
  ask.kill = read_kill(f, s.colony.constants);
  ask.away = read_away(f);
  if (ask.start < 0) f.fail("search.start", "must not be negative");
  if (ask.n_min < 1) f.fail("search.n_min", "must be at least 1");
  if (ask.n_max < ask.n_min || ask.n_max > 100) f.fail("search.n_max", "must be from n_min to 100");
  if (ask.i_min < 1) f.fail("search.i_min", "must be at least 1");
  if (ask.i_max < ask.i_min || ask.i_max > 366) f.fail("search.i_max", "must be from i_min to 366");
}

void read_fit(Fields& root, Simulation& s) {
  const json* value = root.find("fit_kill");
  if (value == nullptr) return;
  Fields f(*value, "fit_kill", root.wrong());
  if (!f.known({"treatment", "pre_day", "post_day", "observed_ratio"})) return;
  FitAsk& fit = s.fit.emplace();
  if (const json* t = f.need("treatment"))
    fit.treatment =
        read_treatment(*t, "fit_kill.treatment", s.colony.constants, root.wrong(), false);
  f.whole("pre_day", fit.pre_day);
  f.whole("post_day", fit.post_day);
  f.number("observed_ratio", fit.ratio);
  if (fit.pre_day < 0 || fit.pre_day > s.days) f.fail("fit_kill.pre_day", "must be from 0 to days");
  if (fit.post_day <= fit.pre_day || fit.post_day > s.days)
    f.fail("fit_kill.post_day", "must be after pre_day and not after days");
  if (fit.ratio < 0) f.fail("fit_kill.observed_ratio", "must not be negative");
}

void read_days_to_run(Fields& f, Simulation& s) {
  f.whole("days", s.days);
  if (s.days < 0 || s.days > kMostModelDays) f.fail("days", "must be from 0 to 3660");
  s.evaluate_day = s.days;
  f.whole_in("evaluate_day", s.evaluate_day, 0, std::max(0, s.days));
}

void read_simulation(Fields& f, Simulation& s) {
  read_params(f, s.colony.constants);
  read_colony(f, s.colony);
  read_laying(f, s.colony);
  read_load(f, s.load);
  read_days_to_run(f, s);
  read_curve(f, "immigration", s.colony.immigration, 0);
  read_curve(f, "phoretic_mortality", s.colony.phoretic_death, 0);
  if (const json* t = f.find("treatment"); t != nullptr && !t->is_null())
    s.treatment = read_treatment(*t, "treatment", s.colony.constants, f.wrong());
  read_schedules(f, s);
  read_search(f, s);
  read_fit(f, s);
  double threshold = 0;
  if (f.find("threshold_per_100") != nullptr) {
    f.number("threshold_per_100", threshold);
    if (threshold <= 0) f.fail("threshold_per_100", "must be above 0");
    s.threshold = threshold;
  }
}

}  // namespace

MitesAsk read_mites_ask(const json& value, std::string& wrong) {
  MitesAsk ask;
  Fields f(value, "", wrong);
  if (!f.known({"name", "params", "colony", "laying", "mites", "days", "immigration",
                "phoretic_mortality", "treatment", "schedules", "evaluate_day", "search",
                "fit_kill", "threshold_per_100", "sampling"}))
    return ask;
  if (f.find("name") != nullptr) f.text("name", ask.name.emplace());
  bool simulates = false;
  for (const auto& [key, part] : value.items())
    simulates = simulates || (key != "name" && key != "sampling" && key != "params");
  if (simulates) read_simulation(f, ask.simulation.emplace());
  if (!simulates) {
    Constants checked;
    read_params(f, checked);
  }
  if (f.find("sampling") != nullptr) ask.sampling = read_sampling(f);
  return ask;
}

}  // namespace storage
