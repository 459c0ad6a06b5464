#include "engine/words/offer_words.h"

#include <fmt/format.h>

#include "engine/words/words.h"

namespace engine {
namespace {

// Lines "WHAT: OLD here, NEW there", of what differs.
class Differences {
 public:
  explicit Differences(Units units) : units_(units) {}

  void add(const char* what, const std::string& here, const std::string& there) {
    if (here != there)
      lines_.push_back(fmt::format("{}: {} here, {} there", what, said(here), said(there)));
  }
  void add(const char* what, const std::optional<int>& here, const std::optional<int>& there,
           const char* unit) {
    add(what, number(here, unit), number(there, unit));
  }
  void add(const LabelRules& here, const LabelRules& there);
  void add(const Thresholds& here, const Thresholds& there);
  [[nodiscard]] std::vector<std::string> take() { return std::move(lines_); }

 private:
  static std::string said(const std::string& words) { return words.empty() ? "not set" : words; }
  static std::string number(const std::optional<int>& n, const char* unit) {
    return n ? fmt::format("{} {}", *n, unit) : std::string();
  }
  void mass(const char* what, const std::optional<Mass>& here, Basis on,
            const std::optional<Mass>& there, Basis on_there) {
    add(what, here ? words(*here, on, units_) : "no limit",
        there ? words(*there, on_there, units_) : "no limit");
  }
  void seconds(const char* what, Seconds here, Seconds there) {
    add(what, fmt::format("{} s", here.count()), fmt::format("{} s", there.count()));
  }

  Units units_;
  std::vector<std::string> lines_;
};

void Differences::add(const LabelRules& here, const LabelRules& there) {
  add("Product", here.product, there.product);
  add("Registration", here.registration, there.registration);
  mass("Dose for a brood box", here.per_brood_box, here.basis, there.per_brood_box, there.basis);
  mass("Most for a brood box", here.most_per_brood_box, here.basis, there.most_per_brood_box,
       there.basis);
  mass("Most for a colony", here.most_per_colony, here.basis, there.most_per_colony, there.basis);
  mass("Dihydrate in a gram of product", here.dihydrate_per_gram, Basis::Dihydrate,
       there.dihydrate_per_gram, Basis::Dihydrate);
  add("Honey supers", words(here.supers), words(there.supers));
  add("Cartridge", here.cartridge, there.cartridge);
  add("Withdrawal", here.withdrawal_days, there.withdrawal_days, "days");
  seconds("Dwell, goal", here.dwell_goal, there.dwell_goal);
  seconds("Dwell, least", here.dwell_least, there.dwell_least);
  seconds("Closed, goal", here.seal_goal, there.seal_goal);
  seconds("Closed, least", here.seal_least, there.seal_least);
  add("Label file", here.profile, there.profile);
}

void Differences::add(const Thresholds& here, const Thresholds& there) {
  const auto tenths = [](int n) { return fmt::format("{:.1f} on 100 bees", n / 10.0); };
  const auto one = [&](Season s, int a, int b) {
    add(fmt::format("Too many mites, {}", words(s)).c_str(), tenths(a), tenths(b));
  };
  one(Season::Dormant, here.dormant_tenths, there.dormant_tenths);
  one(Season::Increase, here.increase_tenths, there.increase_tenths);
  one(Season::Peak, here.peak_tenths, there.peak_tenths);
  one(Season::Decline, here.decline_tenths, there.decline_tenths);
}

std::string label_words(const LabelRules& there, const Setup& here) {
  const Units units = units_of(here);
  const std::string dose = words(there.per_brood_box, there.basis, units);
  if (!here.rules)
    return fmt::format("uses a label, and this one none: {}, {} for a brood box", there.product,
                       dose);
  const std::string ours = words(here.rules->per_brood_box, here.rules->basis, units);
  if (ours == dose) return fmt::format("uses another label, {} for a brood box on both", dose);
  return fmt::format("uses another label: {} here, {} there for a brood box", ours, dose);
}

}  // namespace

std::string words(const Offer& offer, const Farm& farm) {
  const SetupChanged& c = offer.change;
  std::string what;
  const auto add = [&](const char* more) {
    what += (what.empty() ? "has other " : ", ") + std::string(more);
  };
  if (c.rules) what = label_words(*c.rules, farm.setup);
  if (c.thresholds) add("thresholds");
  if (c.clean_every) add("cleaning of vaporizers");
  if (c.cartridge_hours) add("hours of a cartridge");
  return fmt::format("Tablet {} {}.", short_device(offer.tablet), what);
}

std::vector<std::string> differences(const Offer& offer, const Farm& farm) {
  const SetupChanged& c = offer.change;
  const Setup& here = farm.setup;
  Differences all(units_of(here));
  if (c.rules && !here.rules) all.add("Label", "", c.rules->product);
  if (c.rules) all.add(here.rules.value_or(LabelRules{}), *c.rules);
  if (c.thresholds) all.add(here.thresholds.value_or(Thresholds{}), *c.thresholds);
  all.add("Clean a vaporizer after", here.clean_every,
          c.clean_every ? c.clean_every : here.clean_every, "settings");
  all.add("A cartridge lasts", here.cartridge_hours,
          c.cartridge_hours ? c.cartridge_hours : here.cartridge_hours, "h");
  return all.take();
}

}  // namespace engine
