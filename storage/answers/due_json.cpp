#include "storage/answers/due_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace storage {
namespace {

using nlohmann::ordered_json;

ordered_json round_json(const engine::Farm& farm, const engine::DueRound& r) {
  return {{"yard", farm.yards.at(r.yard).name},
          {"course", engine::text(r.course)},
          {"round", r.number},
          {"of", r.of},
          {"planned", engine::iso_date(r.planned)},
          {"days_over", r.days_over}};
}

ordered_json reason_json(const engine::ComeBackReason& r) {
  ordered_json json{{"why", engine::name(r.why)}};
  if (r.passed) json["passed"] = engine::name(*r.passed);
  if (r.mishap) json["mishap"] = engine::name(*r.mishap);
  if (r.length) json["length_s"] = static_cast<double>(r.length->count()) / 1000.0;
  return json;
}

ordered_json come_back_json(const engine::Farm& farm, const engine::ComeBack& c) {
  ordered_json reasons = ordered_json::array();
  for (const engine::ComeBackReason& r : c.reasons) reasons.push_back(reason_json(r));
  return {{"yard", farm.yards.at(c.yard).name},
          {"colony", engine::colony_name(farm, c.colony)},
          {"reasons", std::move(reasons)}};
}

ordered_json count_json(const engine::Farm& farm, const engine::DueCount& c) {
  ordered_json json{
      {"yard", farm.yards.at(c.yard).name}, {"last", nullptr}, {"days_since", nullptr}};
  if (c.last) json["last"] = engine::iso_date(*c.last), json["days_since"] = c.days_since;
  return json;
}

ordered_json open_walks_json(const engine::Farm& farm) {
  ordered_json array = ordered_json::array();
  for (const auto& [device, id] : farm.walk_under_way) {
    const engine::Walk& walk = farm.walks.at(id);
    array.push_back(
        {{"yard", farm.yards.at(walk.yard).name}, {"opened", engine::rfc3339(walk.opened)}});
  }
  return array;
}

template <class List, class Make>
ordered_json array_of(const engine::Farm& farm, const List& list, Make make) {
  ordered_json array = ordered_json::array();
  for (const auto& item : list) array.push_back(make(farm, item));
  return array;
}

ordered_json post_count_json(const engine::Farm& farm, const engine::DuePostCount& c) {
  return {{"yard", farm.yards.at(c.yard).name},
          {"course", engine::text(c.course)},
          {"last_round", engine::iso_date(c.last_round)},
          {"planned", engine::iso_date(c.planned)},
          {"days_over", c.days_over}};
}

ordered_json visit_json(const engine::Farm& farm, const engine::Visit& v) {
  ordered_json names = ordered_json::array();
  for (const engine::ColonyId c : v.come_backs) names.push_back(engine::colony_name(farm, c));
  return {{"on", engine::iso_date(v.on)},
          {"yard", farm.yards.at(v.yard).name},
          {"round", v.course.has_value()},
          {"come_backs", std::move(names)}};
}

ordered_json moved_json(const engine::Farm& farm, const engine::CourseDates& c) {
  ordered_json rounds = ordered_json::array();
  for (const engine::Date d : c.rounds) rounds.push_back(engine::iso_date(d));
  return {{"yard", farm.yards.at(farm.courses.at(c.course).yard).name},
          {"course", engine::text(c.course)},
          {"rounds", std::move(rounds)}};
}

ordered_json sample_json(const engine::Farm& farm, const engine::DueSample& s) {
  return {{"yard", farm.yards.at(s.yard).name},
          {"colony", engine::colony_name(farm, s.colony)},
          {"on", engine::iso_date(s.taken.on)},
          {"mites", s.taken.mites}};
}

ordered_json dead_out_json(const engine::Farm& farm, const engine::ColonyId& colony) {
  return {{"yard", farm.yards.at(farm.colonies.at(colony).yard).name},
          {"colony", engine::colony_name(farm, colony)}};
}

ordered_json lead_json(const engine::Farm& farm, const engine::AgendaItem& item) {
  ordered_json names = ordered_json::array();
  for (const engine::ColonyId c : item.colonies) names.push_back(engine::colony_name(farm, c));
  return {{"what", engine::name(item.kind)},
          {"yard", farm.yards.at(item.yard).name},
          {"line", engine::line_of(item, farm)},
          {"colonies", std::move(names)}};
}

ordered_json lost_json(const engine::Farm&, const std::pair<engine::Date, engine::LossWhy>& lost) {
  return {{"on", engine::iso_date(lost.first)}, {"why", engine::name(lost.second)}};
}

}  // namespace

std::vector<std::pair<engine::Date, engine::LossWhy>> lately_lost(const engine::Farm& farm,
                                                                  engine::Date on) {
  std::vector<std::pair<engine::Date, engine::LossWhy>> list;
  for (const auto& lost : farm.evenings.lost)
    if (lost.first <= on && engine::days_apart(lost.first, on) <= 30) list.push_back(lost);
  std::reverse(list.begin(), list.end());
  return list;
}

std::string due_json(const engine::Farm& farm, const engine::Due& due, engine::Date on,
                     std::span<const engine::MethodRules> methods) {
  const engine::Surrounding around{on, nullptr, {}};
  const engine::Proposal missed = engine::propose_for_missed(farm, around);
  const ordered_json json{
      {"on", engine::iso_date(on)},
      {"rounds", array_of(farm, due.rounds, round_json)},
      {"coming", array_of(farm, due.coming, round_json)},
      {"come_backs", array_of(farm, due.come_backs, come_back_json)},
      {"counts", array_of(farm, due.counts, count_json)},
      {"open_walks", open_walks_json(farm)},
      {"post_counts", array_of(farm, due.post_counts, post_count_json)},
      {"visits", array_of(farm, engine::visits(farm, around), visit_json)},
      {"missed", array_of(farm, missed.courses, moved_json)},
      {"lost_evenings", array_of(farm, lately_lost(farm, on), lost_json)},
      {"samples", array_of(farm, due.samples, sample_json)},
      {"dead_outs", array_of(farm, due.dead_outs, dead_out_json)},
      {"lead", array_of(farm, engine::agenda_of(farm, due, on, methods), lead_json)}};
  return json.dump(2, ' ', false, ordered_json::error_handler_t::replace);
}

}  // namespace storage
