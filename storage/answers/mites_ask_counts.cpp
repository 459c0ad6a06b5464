#include <limits>

#include "engine/core/names.h"
#include "storage/answers/mites_ask.h"

namespace storage {
namespace {

using namespace engine::mites;
using nlohmann::json;

constexpr int kMostBees = 10'000'000, kMostMites = 100'000'000;
constexpr int kMostMitesPerBee = 20;  // more on one bee is no count

bool sane(Reader& f, const std::string& field, const Wash& w) {
  if (w.bees < 1) return f.fail(field, "there must be at least one bee");
  if (w.mites < 0) return f.fail(field, "mites must not be negative");
  return w.mites <= kMostMitesPerBee * w.bees ||
         f.fail(field, "more than 20 mites for each bee is no count");
}

void count(Reader& f, const char* key, std::int64_t& to, int least, int most) {
  int n = 0;
  if (f.need(key) == nullptr) return;
  f.within(key, n, least, most);
  to = n;
}

void read_conf(Reader& f, double& conf) {
  f.within("conf", conf, 0, 1);
  if (conf <= 0 || conf >= 1) f.fail(f.called("conf"), "must lie between 0 and 1");
}

void read_cutoff(Reader& f, std::optional<Cutoff>& to) {
  Cutoff c;
  f.within("alpha", c.alpha, 0, 1);
  f.within("beta", c.beta, 0, 1);
  for (const auto& [key, value] : {std::pair{"alpha", c.alpha}, {"beta", c.beta}})
    if (value <= 0 || value >= 1) f.fail(f.called(key), "must lie between 0 and 1");
  if (f.find("threshold_per_100") == nullptr) return;
  f("threshold_per_100", c.per_100);
  if (c.per_100 <= 0 || c.per_100 >= 100)
    f.fail(f.called("threshold_per_100"), "must lie between 0 and 100");
  to = c;
}

WashAsk read_wash(Reader& f) {
  WashAsk ask;
  if (!f.known({"type", "k", "n", "conf", "threshold_per_100", "alpha", "beta"})) return ask;
  count(f, "k", ask.wash.mites, 0, kMostMites);
  count(f, "n", ask.wash.bees, 1, kMostBees);
  if (f.fine()) sane(f, f.called("k"), ask.wash);
  read_conf(f, ask.conf);
  read_cutoff(f, ask.cutoff);
  return ask;
}

std::vector<int> whole_list(Reader& f, const char* key) {
  std::vector<int> all;
  const json* list = f.need(key);
  if (list == nullptr) return all;
  if (!list->is_array() || list->empty())
    return f.fail(f.called(key), "must be a list of counts"), all;
  for (const json& item : *list) {
    int n = 0;
    if (!f.take(f.called(key), item, n)) return all;
    all.push_back(n);
  }
  return all;
}

YardSample read_yard(Reader& f) {
  YardSample sample;
  if (!f.known({"type", "k", "n", "colonies", "dispersion", "conf", "threshold_per_100", "alpha",
                "beta"}))
    return sample;
  const std::vector<int> mites = whole_list(f, "k"), bees = whole_list(f, "n");
  if (f.fine() && mites.size() != bees.size())
    f.fail(f.called("n"), "must have as many counts as k");
  for (std::size_t i = 0; i < mites.size() && f.fine(); ++i) {
    sample.colonies.push_back({mites[i], bees[i]});
    sane(f, f.called("k") + "[" + std::to_string(i) + "]", sample.colonies.back());
  }
  if (const json* all = f.find("colonies"); all != nullptr && !all->is_null()) {
    f.within("colonies", sample.in_yard.emplace(0), 1, 1'000'000);
    if (*sample.in_yard < static_cast<int>(sample.colonies.size()))
      f.fail(f.called("colonies"), "is fewer than were counted");
  }
  if (const json* size = f.find("dispersion"); size != nullptr && !size->is_null())
    f.within("dispersion", sample.dispersion.emplace(1), 1e-9, 1e12);
  read_conf(f, sample.conf);
  read_cutoff(f, sample.cutoff);
  return sample;
}

bool take_wash(Reader& f, const std::string& field, const json& pair, Wash& to) {
  int mites = 0, bees = 0;
  if (!pair.is_array() || pair.size() != 2) return f.fail(field, "must be [mites, bees]");
  if (!f.take(field, pair[0], mites) || !f.take(field, pair[1], bees)) return false;
  to = {mites, bees};
  return sane(f, field, to);
}

void read_counts(Reader& f, const char* key, Wash& to) {
  if (const json* pair = f.need(key)) take_wash(f, f.called(key), *pair, to);
}

FollowUpAsk read_follow_up(Reader& f) {
  FollowUpAsk ask;
  if (!f.known({"type", "method", "killed", "follow_up", "conf"})) return ask;
  count(f, "killed", ask.killed, 0, kMostMites);
  count(f, "follow_up", ask.by_follow_up, 0, kMostMites);
  if (f.fine() && ask.killed + ask.by_follow_up == 0)
    f.fail(f.called("killed"), "and follow_up must not both be 0");
  read_conf(f, ask.conf);
  return ask;
}

EfficacyAsk read_efficacy(Reader& f, const std::string& method) {
  EfficacyAsk ask;
  if (!f.known({"type", "method", "ta", "tb", "ca", "cb", "phi", "conf"})) return ask;
  const auto named = engine::from_name<EfficacyMethod>(method);
  if (!named) {
    f.fail(f.called("method"), "must be henderson_tilton, abbott, reduction or follow_up");
    return ask;
  }
  ask.method = *named;
  read_counts(f, "ta", ask.counts.treated_after);
  if (*named != EfficacyMethod::Abbott) read_counts(f, "tb", ask.counts.treated_before);
  if (*named != EfficacyMethod::Reduction) read_counts(f, "ca", ask.counts.control_after);
  if (*named == EfficacyMethod::HendersonTilton) read_counts(f, "cb", ask.counts.control_before);
  f.within("phi", ask.phi, 1, 1e9);
  read_conf(f, ask.conf);
  return ask;
}

BoardAsk read_board(Reader& f) {
  BoardAsk ask;
  if (!f.known({"type", "fallen", "days", "factor", "factor_uncertainty", "conf"})) return ask;
  count(f, "fallen", ask.count.fallen, 0, kMostMites);
  f("days", ask.count.days);
  if (f.fine() && ask.count.days <= 0) f.fail(f.called("days"), "must be above 0");
  f("factor", ask.factor);
  if (f.fine() && ask.factor <= 0) f.fail(f.called("factor"), "must be above 0");
  f.within("factor_uncertainty", ask.uncertainty, 1, 1e9);
  read_conf(f, ask.conf);
  return ask;
}

SamplingAsk read_one(const json& value, const std::string& name, std::string& wrong) {
  Reader f(value, name, wrong);
  if (!value.is_object()) return f.fail(name, "must be an object"), WashAsk{};
  std::string type, method;
  f("type", type);
  if (type == "wash") return read_wash(f);
  if (type == "yard") return read_yard(f);
  if (type == "board") return read_board(f);
  if (type == "efficacy") {
    f("method", method);
    if (method == "follow_up") return read_follow_up(f);
    return read_efficacy(f, method);
  }
  f.fail(name + ".type", "must be wash, yard, efficacy or board");
  return WashAsk{};
}

}  // namespace

std::vector<Wash> read_washes(Reader& f, const char* key) {
  std::vector<Wash> washes;
  const json* list = f.need(key);
  if (list == nullptr) return washes;
  if (!list->is_array()) f.fail(f.called(key), "must be a list of [mites, bees]");
  for (std::size_t i = 0; i < list->size() && f.fine(); ++i)
    take_wash(f, f.called(key) + "[" + std::to_string(i) + "]", (*list)[i], washes.emplace_back());
  return washes;
}

std::vector<SamplingAsk> read_sampling(Reader& f) {
  std::vector<SamplingAsk> all;
  const json* list = f.find("sampling");
  if (!list->is_array()) return f.fail("sampling", "must be a list"), all;
  for (std::size_t i = 0; i < list->size() && f.fine(); ++i)
    all.push_back(read_one((*list)[i], "sampling[" + std::to_string(i) + "]", f.wrong()));
  return all;
}

}  // namespace storage
