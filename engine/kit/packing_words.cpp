#include "engine/kit/packing_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/words/lookup.h"
#include "engine/words/words.h"

namespace engine {
namespace {

std::string grams(const Farm& farm, Mass m) { return show(m, farm.setup.mass_unit); }

std::string many(int n, const char* one, const char* more) {
  return counted(static_cast<std::size_t>(n), one, more);
}

std::string hours(Ms length) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(length).count();
  if (minutes < 60) return fmt::format("{} min", minutes);
  return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

// Nothing is ever sure, and nothing that is there is worth nothing.
std::string percent(double p) {
  return fmt::format("{} %", std::clamp(static_cast<int>(p * 100), 1, 99));
}

bool cartridges_used_up(const PackList& list) {
  return !list.respirators.empty() &&
         std::all_of(list.respirators.begin(), list.respirators.end(),
                     [](const PackRespirator& r) { return r.left && r.left->count() == 0; });
}

std::string batteries_missing(const PackBatteries& b) {
  if (b.full + b.begun == 0)
    return "no charged battery, " + many(b.full_needed, "is needed", "are needed");
  return fmt::format("batteries: {} to last", percent(b.lasts));
}

}  // namespace

std::vector<std::string> stock_missing(const Farm& farm, const PackList& list) {
  std::vector<std::string> out;
  if (list.acid.short_by().mg > 0)
    out.push_back("acid: " + grams(farm, list.acid.short_by()) + " short");
  if (!list.batteries.enough()) out.push_back(batteries_missing(list.batteries));
  return out;
}

std::vector<std::string> missing_words(const Farm& farm, const PackList& list) {
  std::vector<std::string> out = stock_missing(farm, list);
  if (list.vaporizers.empty()) out.emplace_back("no vaporizer");
  if (list.cloths == 0) out.emplace_back("no cloth");
  if (list.respirators.empty()) out.emplace_back("no respirator");
  if (cartridges_used_up(list)) out.emplace_back("respirator: a new cartridge");
  return out;
}

std::string headline_words(const Farm& farm, const PackList& list) {
  const std::string colonies = many(list.colonies, "colony", "colonies");
  if (list.ready())
    return fmt::format("For {}: {} of acid, {}, {}. All of it is there.", colonies,
                       grams(farm, list.acid.needed),
                       many(list.batteries.full_needed, "full battery", "full batteries"),
                       many(list.cloths, "cloth", "cloths"));
  std::string line = "Not ready for " + colonies + ": ";
  for (std::size_t i = 0; i < list.missing.size(); ++i)
    line += (i > 0 ? "; " : "") + list.missing[i];
  return line + ".";
}

std::string cloth_words(const PackList& list) {
  if (!list.cloth_saves || *list.cloth_saves < std::chrono::minutes(1)) return {};
  const auto minutes = std::chrono::round<std::chrono::minutes>(*list.cloth_saves).count();
  return fmt::format("One more cloth would save {} min of the evening.", minutes);
}

std::string battery_words(const PackBatteries& b) {
  const std::string from = b.learned_from > 0
                               ? "from " + many(b.learned_from, "charge", "charges") + " of yours"
                               : std::string("common practice; no charge of yours yet");
  std::string there = many(b.full, "full battery", "full batteries");
  if (b.begun > 0) there += fmt::format(" and {} begun", b.begun);
  const std::string last = b.full + b.begun > 0 ? ", " + percent(b.lasts) + " to last" : "";
  return fmt::format("{} for 95 % (model, {}). There: {}{}.",
                     many(b.full_needed, "full one", "full ones"), from, there, last);
}

std::string respirator_words(const Farm& farm, const PackRespirator& r) {
  const std::string name = kit_called(farm, r.item);
  if (r.left)
    return fmt::format("{}: {} left of the {} h in Setup", name, hours(*r.left),
                       farm.setup.cartridge_hours.value_or(0));
  return fmt::format("{}: worn {}; its maker and your label say for how long", name, hours(r.worn));
}

// Half an hour of rinsing: New Jersey Department of Health, Right to Know fact sheet 1445, oxalic
// acid (January 2010). The rest is common practice.
const std::vector<std::string>& pack_always() {
  static const std::vector<std::string> list = {
      "Clean water to rinse eyes and skin, at once and for at least 30 minutes, in reach.",
      "Water against fire; goggles, acid-proof gloves, long sleeves; a second pair of gloves.",
      "The label of the acid, and this tablet charged."};
  return list;
}

}  // namespace engine
