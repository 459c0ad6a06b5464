#include "storage/answers/order_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>

#include "engine/core/names.h"
#include "storage/text/json_fields.h"

namespace storage {
namespace {

using engine::Code;
using engine::OrderCase;
using engine::OrderPoint;
using engine::OrderSite;
using engine::OrderStage;
using engine::Status;
using json_fields::Reader;
using nlohmann::json;

void take_point(Reader& f, const char* key, const json& value, OrderPoint& to) {
  if (value.is_array() && value.size() == 2 && value[0].is_number() && value[1].is_number())
    to = {value[0].get<double>(), value[1].get<double>()};
  else
    f.fail(f.called(key), "must be two numbers, [east, north]");
}

void point(Reader& f, const char* key, OrderPoint& to) {
  if (const json* value = f.need(key)) take_point(f, key, *value, to);
}

void read_stage(Reader& f, OrderSite& site) {
  if (const json* stage = f.find("stage")) {
    const auto value = stage->is_string()
                           ? engine::from_name<OrderStage>(stage->get_ref<const std::string&>())
                           : std::nullopt;
    if (!value) return void(f.fail(f.called("stage"), "must be todo, vapor, covered or done"));
    site.stage = *value;
  }
  const bool timed = site.stage == OrderStage::Vapor || site.stage == OrderStage::Covered;
  std::optional<double> since;
  f("since_s", since);
  if (timed && !since)
    f.fail(f.called("since_s"), "is missing; a colony under vapor or covered needs it");
  site.since_s = since.value_or(0);
  if (f.find("cloth") == nullptr) return;
  f.whole("cloth", site.cloth);
  if (site.cloth < 1) f.fail(f.called("cloth"), "must be at least 1");
}

OrderSite read_site(const json& value, const std::string& name, std::string& wrong) {
  OrderSite site;
  Reader f(value, name, wrong);
  if (!f.known({"id", "at", "dwell_s", "stage", "since_s", "cloth"})) return site;
  f("id", site.id);
  point(f, "at", site.at);
  f("dwell_s", site.dwell_s);
  read_stage(f, site);
  return site;
}

void read_sites(Reader& f, OrderCase& c, std::string& wrong) {
  const json* list = f.need("colonies");
  if (list == nullptr) return;
  if (!list->is_array()) return void(f.fail("colonies", "must be a list"));
  if (list->size() > static_cast<std::size_t>(engine::kMostSites))
    return void(f.fail("colonies", fmt::format("more than {}", engine::kMostSites)));
  for (std::size_t i = 0; i < list->size() && wrong.empty(); ++i)
    c.sites.push_back(read_site((*list)[i], fmt::format("colonies[{}]", i), wrong));
}

void read_handling(Reader& f, OrderCase& c, std::string& wrong) {
  const json* value = f.need("handling_s");
  if (value == nullptr) return;
  Reader h(*value, "handling_s", wrong);
  if (!h.known({"load_and_set", "lift_and_cover", "uncover"})) return;
  h("load_and_set", c.handling.load_and_set_s);
  h("lift_and_cover", c.handling.lift_and_cover_s);
  h("uncover", c.handling.uncover_s);
}

OrderCase read_case(const json& value, std::string& wrong) {
  OrderCase c;
  Reader f(value, "", wrong);
  if (!f.known({"walk_mps", "gate", "vaporizers", "cloths", "seal_s", "handling_s", "colonies",
                "now_s", "operator_at", "finish_by_s", "wind_from_deg"}))
    return c;
  f("walk_mps", c.walk_mps);
  point(f, "gate", c.gate);
  f.whole("vaporizers", c.vaporizers);
  f.whole("cloths", c.cloths);
  f("seal_s", c.seal_s);
  read_handling(f, c, wrong);
  std::optional<double> now;
  f("now_s", now);
  c.now_s = now.value_or(0);
  if (const json* at = f.find("operator_at"))
    take_point(f, "operator_at", *at, c.operator_at.emplace());
  f("finish_by_s", c.finish_by_s);
  f("wind_from_deg", c.wind_from_deg);
  read_sites(f, c, wrong);
  return c;
}

json step_json(const OrderCase& c, const engine::OrderStep& s) {
  json step = {{"do", engine::name(s.act)},
               {"colony", c.sites[static_cast<std::size_t>(s.site)].id},
               {"start_s", s.start_s},
               {"end_s", s.end_s}};
  if (s.cloth > 0) step["cloth"] = s.cloth;
  return step;
}

}  // namespace

engine::Result<OrderCase> read_order_case(std::string_view text) {
  const json value = json::parse(text, nullptr, false);
  if (value.is_discarded()) return Status{Code::BadInput, "the file: is not JSON"};
  std::string wrong;
  OrderCase c = read_case(value, wrong);
  if (wrong.empty()) wrong = engine::what_is_wrong(c);
  if (!wrong.empty()) return Status{Code::BadInput, wrong};
  return c;
}

std::string order_plan_json(const OrderCase& c, const engine::OrderPlan& plan) {
  std::string steps;
  for (const engine::OrderStep& s : plan.steps)
    steps += (steps.empty() ? "\n  " : ",\n  ") + step_json(c, s).dump();
  const json head = {{"finish_s", plan.finish_s},
                     {"lower_bound_s", plan.lower_bound_s},
                     {"shortest_seal_s", plan.shortest_seal_s},
                     {"downwind_s", plan.downwind_s},
                     {"proven_optimal", plan.proven_optimal}};
  std::string text = head.dump();
  text.pop_back();
  return text + ",\n \"steps\": [" + steps + "]}\n";
}

}  // namespace storage
