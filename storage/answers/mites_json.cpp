#include "storage/answers/mites_json.h"

#include "engine/core/names.h"
#include "storage/answers/mites_ask.h"

namespace storage {
namespace {

using namespace engine::mites;
using nlohmann::json;

// JSON has no NaN: null, as the library writes it, wherever a double is not finite.
json maybe(const std::optional<double>& value) { return value ? json(*value) : json(nullptr); }

json crossing_json(const std::optional<Crossing>& c) {
  if (!c) return nullptr;
  return {{"day", c->day}, {"interpolated", c->interpolated}};
}

json run_json(const ColonyRun& r) {
  return {{"total", r.total},
          {"phoretic", r.phoretic},
          {"in_brood", r.in_brood},
          {"adults", r.adults},
          {"capped_worker", r.capped_worker},
          {"capped_drone", r.capped_drone},
          {"wash_per_100", r.wash_per_100},
          {"invasion_rate", r.invasion_rate},
          {"natural_drop", r.natural_drop},
          {"treatment_kill", r.treatment_kill},
          {"rounds", r.rounds},
          {"kill_probability", r.kill},
          {"away_share", r.away},
          {"capped_cohort", r.capped_cohort},
          {"capped_cohort_exposed", maybe(r.capped_cohort_exposed)},
          {"worker_cells_opened_by_last_round", r.worker_cells_opened},
          {"drone_cells_opened_by_last_round", r.drone_cells_opened}};
}

json schedule_json(const ColonyRun& treated, const ColonyRun& untreated, int day) {
  const Comparison c = compare(treated, untreated, day);
  const auto at = static_cast<std::size_t>(day);
  return {{"rounds", treated.rounds},
          {"kill_probability", treated.kill},
          {"total", treated.total[at]},
          {"wash_per_100", treated.wash_per_100[at]},
          {"reduction_vs_untreated_pct", maybe(c.reduction_pct)},
          {"wash_reduction_vs_untreated_pct", maybe(c.wash_reduction_pct)},
          {"change_vs_start_pct", maybe(c.change_pct)},
          {"lowest_wash", c.lowest_wash},
          {"lowest_wash_day", c.lowest_wash_day},
          {"mean_wash", c.mean_wash},
          {"capped_cohort_exposed", maybe(treated.capped_cohort_exposed)}};
}

json candidate_json(const Candidate& c) {
  return {{"n", c.n},
          {"interval", c.interval},
          {"days", c.days},
          {"mean_wash", c.mean_wash},
          {"reduction_vs_untreated_pct", c.reduction_pct}};
}

json search_json(const SearchAnswer& answer) {
  json ladder = json::array();
  for (const Candidate& c : answer.ladder) ladder.push_back(candidate_json(c));
  return {{"best", answer.best ? candidate_json(*answer.best) : json(nullptr)},
          {"advised", answer.advised ? candidate_json(*answer.advised) : json(nullptr)},
          {"ladder", std::move(ladder)},
          {"tried", answer.tried}};
}

void simulate(const Simulation& s, json& out) {
  const ColonyState start = start_of(s.colony, s.load);
  const ColonyRun r = run(s.colony, start, s.treatment, s.days);
  out["run"] = run_json(r);
  if (s.threshold) {
    out["crossing"] = crossing_json(crossing(r.wash_per_100, *s.threshold));
    out["rebound"] = crossing_json(rebound(r, *s.threshold));
  }
  const ColonyRun untreated = run_untreated(s.colony, start, s.days);
  const auto at = static_cast<std::size_t>(s.evaluate_day);
  out["untreated"] = {{"total", untreated.total[at]}, {"wash_per_100", untreated.wash_per_100[at]}};
  if (s.schedules) {
    out["schedules"] = json::array();
    for (const Treatment& t : *s.schedules)
      out["schedules"].push_back(
          schedule_json(run(s.colony, start, t, s.evaluate_day), untreated, s.evaluate_day));
  }
  if (s.search) out["search"] = search_json(search(s.colony, start, *s.search, s.evaluate_day));
  if (s.fit) {
    const KillFit fit =
        fit_kill(s.colony, start, s.fit->treatment, s.fit->pre_day, s.fit->post_day, s.fit->ratio);
    out["fit_kill"] = {{"kill", fit.kill},
                       {"bounded", fit.bounded ? json(engine::name(*fit.bounded)) : json(nullptr)}};
  }
}

json learn_json(const LearnAsk& ask) {
  LearnGrid sum{};
  json phi = json::array();
  for (const TaughtCourse& c : ask.courses) {
    const Lesson lesson = lesson_of(c);
    phi.push_back(lesson.phi);
    for (std::size_t i = 0; i < kLearnPoints; ++i) sum[i] += lesson.log_likelihood[i];
  }
  const LearnedZ learned(sum);
  const double low = learned.quantile(0.1), mid = learned.quantile(0.5),
               high = learned.quantile(0.9);
  json kills = json::array();
  for (const double dose : ask.doses_g)
    kills.push_back({{"dose_g", dose},
                     {"p10", kill_at(low, dose, ask.constants)},
                     {"p50", kill_at(mid, dose, ask.constants)},
                     {"p90", kill_at(high, dose, ask.constants)}});
  return {{"z", {{"p10", low}, {"p50", mid}, {"p90", high}}},
          {"phi", std::move(phi)},
          {"kill", std::move(kills)}};
}

// ---- counts ----

void add_verdict(json& out, const std::optional<Verdict>& v) {
  out["p_ge"] = v ? json(v->p_ge) : json(nullptr);
  out["p_le"] = v ? json(v->p_le) : json(nullptr);
  out["decision"] = v ? json(engine::name(v->decision)) : json(nullptr);
}

json answer(const WashAsk& ask) {
  const WashEstimate e = estimate(ask.wash, ask.conf);
  json out = {{"type", "wash"},
              {"method", engine::name(e.method)},
              {"per_100", e.per_100},
              {"low", e.low},
              {"high", e.high}};
  add_verdict(out, ask.cutoff ? std::optional(judge(ask.wash, *ask.cutoff)) : std::nullopt);
  return out;
}

json answer(const YardSample& sample) {
  const YardEstimate e = estimate(sample);
  json out = {{"type", "yard"},
              {"mean_per_100", e.mean_per_100},
              {"max_per_100", e.max_per_100},
              {"sd", e.spread ? json(e.spread->sd) : json(nullptr)},
              {"se", e.spread ? json(e.spread->se) : json(nullptr)},
              {"t_low", e.spread ? json(e.spread->t_low) : json(nullptr)},
              {"t_high", e.spread ? json(e.spread->t_high) : json(nullptr)},
              {"dispersion", e.dispersion},
              {"pooled_per_100", e.pooled_per_100},
              {"nb_low", e.nb_low},
              {"nb_high", e.nb_high}};
  add_verdict(out, e.verdict);
  out["more_colonies_if_mean_holds"] =
      e.more_colonies_if_mean_holds ? json(*e.more_colonies_if_mean_holds) : json(nullptr);
  return out;
}

json efficacy_json(const Efficacy& e) {
  return {{"type", "efficacy"},
          {"efficacy_pct", e.percent},
          {"low", e.low},
          {"high", e.high},
          {"zero_corrected", e.zero_corrected}};
}

json answer(const EfficacyAsk& ask) {
  return efficacy_json(efficacy(ask.method, ask.counts, ask.phi, ask.conf));
}

json answer(const FollowUpAsk& ask) {
  return efficacy_json(follow_up_efficacy(ask.killed, ask.by_follow_up, ask.conf));
}

json answer(const BoardAsk& ask) {
  const BoardEstimate e = estimate(ask.count, ask.factor, ask.uncertainty, ask.conf);
  return {{"type", "board"},
          {"per_day", e.per_day},
          {"colony", e.colony},
          {"low", e.low},
          {"high", e.high}};
}

}  // namespace

engine::Result<std::string> answer_mites(std::string_view text) {
  const json value = json::parse(text, nullptr, false);
  if (value.is_discarded()) return engine::Status{engine::Code::BadInput, "the file: is not JSON"};
  std::string wrong;
  const MitesAsk ask = read_mites_ask(value, wrong);
  if (!wrong.empty()) return engine::Status{engine::Code::BadInput, wrong};
  json out = json::object();
  if (ask.name) out["name"] = *ask.name;
  if (ask.simulation) simulate(*ask.simulation, out);
  if (ask.learn) out["learn"] = learn_json(*ask.learn);
  if (ask.sampling) {
    out["sampling"] = json::array();
    for (const SamplingAsk& one : *ask.sampling)
      out["sampling"].push_back(std::visit([](const auto& a) { return answer(a); }, one));
  }
  return out.dump(-1, ' ', false, json::error_handler_t::replace) + "\n";
}

}  // namespace storage
