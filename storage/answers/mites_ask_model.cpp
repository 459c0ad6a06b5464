// The colony of a question: constants, bees, queen, mites.
#include "storage/answers/mites_ask.h"
#include "storage/answers/mites_json.h"

namespace storage {
namespace {

using namespace engine::mites;
using nlohmann::json;

// A number or [[day, value], ...].
void read_curve(Reader& f, const char* key, Curve& to, double low) {
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

void read_brood(Reader& f, const char* cap, const char* emerge, BroodDays& to) {
  constexpr int kLongest = 60;
  f.within(cap, to.cap, 1, kLongest);
  f.within(emerge, to.emerge, 1, kLongest);
  if (to.emerge < to.cap + 2)
    f.fail(f.called(emerge), "must be at least two days after the capping");
}

}  // namespace

void read_params(Reader& root, Constants& c) {
  const json* value = root.find("params");
  if (value == nullptr) return;
  Reader f(*value, root.called("params"), root.wrong());
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
    f.within(key, *to, 0, 1);
  for (const auto& [key, to] : {Share{"invasion_worker_g", &c.invasion_worker_g},
                                {"invasion_drone_g", &c.invasion_drone_g},
                                {"daughters_worker", &c.daughters_worker},
                                {"daughters_drone", &c.daughters_drone},
                                {"residual_rate", &c.residual_rate}})
    f.within(key, *to, 0, kAny);
  constexpr double kLeast = 1e-9;  // above 0
  for (const auto& [key, to] : {Share{"bee_mass_g", &c.bee_mass_g},
                                {"wash_recovery", &c.wash_recovery},
                                {"nest_bias", &c.nest_bias},
                                {"dose_scale_exposed_g", &c.dose_scale_exposed_g},
                                {"dose_scale_field_g", &c.dose_scale_field_g}})
    f.within(key, *to, kLeast, kAny);
  f.within("residual_days", c.residual_days, 0, kMostModelDays);
  f.within("warmup_days", c.warmup_days, 0, kMostModelDays);
  if (c.early_share + c.late_share > 1 || c.early_share >= 1)
    f.fail(f.called("early_share"), "with late_share must not be above 1, and itself below 1");
}

namespace {

void read_colony(Reader& root, Colony& c) {
  const json* value = root.need("colony");
  if (value == nullptr) return;
  Reader f(*value, root.called("colony"), root.wrong());
  if (!f.known({"adults", "adult_mode", "lifespan"})) return;
  f("adults", c.adults);
  if (f.fine() && c.adults <= 0) f.fail(f.called("adults"), "must be above 0");
  std::string mode = "dynamic";
  f.maybe("adult_mode", mode);
  if (mode != "dynamic" && mode != "fixed")
    f.fail(f.called("adult_mode"), "must be dynamic or fixed");
  c.adults_fixed = mode == "fixed";
  read_curve(f, "lifespan", c.lifespan, 1e-9);
}

void read_cages(Reader& f, std::vector<Cage>& cages) {
  const json* list = f.find("cages");
  const std::string field = f.called("cages");
  if (list == nullptr || list->is_null()) return;
  if (!list->is_array()) return void(f.fail(field, "must be a list of [from, to]"));
  for (const json& pair : *list) {
    Cage cage;
    if (!pair.is_array() || pair.size() != 2)
      return void(f.fail(field, "must be a list of [from, to]"));
    if (!f.take(field, pair[0], cage.from) || !f.take(field, pair[1], cage.until)) return;
    if (cage.until <= cage.from) return void(f.fail(field, "must end after they begin"));
    cages.push_back(cage);
  }
}

void read_laying(Reader& root, Colony& c) {
  const json* value = root.need("laying");
  if (value == nullptr) return;
  Reader f(*value, root.called("laying"), root.wrong());
  if (!f.known({"worker", "drone", "cages"})) return;
  read_curve(f, "worker", c.worker_eggs, 0);
  read_curve(f, "drone", c.drone_eggs, 0);
  read_cages(f, c.cages);
}

void read_load(Reader& root, MiteLoad& load) {
  const json* value = root.need("mites");
  if (value == nullptr) return;
  Reader f(*value, root.called("mites"), root.wrong());
  if (!f.known({"wash_per_100", "phoretic", "total"})) return;
  if (value->size() != 1)
    return void(f.fail(root.called("mites"), "must hold one of wash_per_100, phoretic and total"));
  const std::string key = value->begin().key();
  load.unit = key == "phoretic" ? LoadUnit::OnBees
              : key == "total"  ? LoadUnit::All
                                : LoadUnit::WashPer100;
  constexpr double kMostAtStart = 1e9;
  f.within(key.c_str(), load.value, 0, kMostAtStart);
}

}  // namespace

void read_model(Reader& f, Colony& colony, MiteLoad& load) {
  read_params(f, colony.constants);
  read_colony(f, colony);
  read_laying(f, colony);
  read_load(f, load);
  read_curve(f, "immigration", colony.immigration, 0);
  read_curve(f, "phoretic_mortality", colony.phoretic_death, 0);
}

}  // namespace storage
