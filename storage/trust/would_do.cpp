#include "storage/trust/would_do.h"

#include <fmt/format.h>

#include <map>
#include <optional>
#include <tuple>

#include "engine/words/words.h"

namespace storage {
namespace {

// In the order in which they are said.
enum class Does { Strikes, Corrects, TakesBack, GivesUp, Joins, Adds, Else };

constexpr const char* verb(Does does) {
  switch (does) {
    case Does::Strikes:
      return "strikes";
    case Does::Corrects:
      return "corrects";
    case Does::TakesBack:
      return "takes back";
    case Does::GivesUp:
      return "gives up";
    case Does::Joins:
      return "joins";
    case Does::Adds:
      return "adds";
    case Does::Else:
      return "holds";
  }
  return "?";
}

class Sum {
 public:
  explicit Sum(const engine::Farm& farm) : farm_(farm) {}

  void add(const engine::Event& e) {
    const engine::KindFacts& facts = engine::facts_of(e.body);
    if (const auto about = meant(e.body)) return add_about(facts, *about);
    if (const auto* setup = std::get_if<engine::SetupChanged>(&e.body)) note_dose(*setup);
    constexpr engine::Noun kPlace{"yard or colony", "yards or colonies"};
    if (facts.says == engine::Says::Loss) return count(Does::GivesUp, kPlace, std::nullopt);
    if (facts.is_join()) return count(Does::Joins, kPlace, std::nullopt);
    if (facts.is_fact()) return count(Does::Adds, facts.noun, engine::local_date(e.stamp));
    count(Does::Else, engine::kOtherEntry, std::nullopt);
  }

  [[nodiscard]] std::vector<std::string> lines() const {
    std::vector<std::string> all;
    if (!dose_.empty()) all.push_back(dose_);
    for (const auto& [what, n] : counts_) {
      const auto& [does, one, many, day] = what;
      all.push_back(fmt::format("{} {}{}", verb(does),
                                engine::counted(n, one.c_str(), many.c_str()),
                                day.empty() ? "" : " of " + day));
    }
    return all;
  }

 private:
  // What it does, the words for one and for many, the day.
  using What = std::tuple<Does, std::string, std::string, std::string>;

  static std::optional<engine::EntryRef> meant(const engine::Body& body) {
    if (const auto* strike = std::get_if<engine::EntryStruck>(&body)) return strike->entry;
    if (const auto* right = std::get_if<engine::EntryCorrected>(&body)) return right->entry;
    if (const auto* back = std::get_if<engine::StrikeTakenBack>(&body)) return back->strike;
    return std::nullopt;
  }

  // What it names that is not here is of the held ones themselves.
  void add_about(const engine::KindFacts& facts, const engine::EntryRef& entry) {
    const Does does = facts.says == engine::Says::Strike       ? Does::Strikes
                      : facts.says == engine::Says::Correction ? Does::Corrects
                                                               : Does::TakesBack;
    const auto place = farm_.log.find(entry);
    if (!place) return count(Does::Else, engine::kOtherEntry, std::nullopt);
    const engine::Event named = farm_.log.copy(*place).event;
    count(does, engine::facts_of(named.body).noun, engine::local_date(named.stamp));
  }

  void note_dose(const engine::SetupChanged& setup) {
    if (!setup.rules) return;
    const auto dose = [](const engine::LabelRules& rules) {
      return engine::words(rules.per_brood_box, rules.basis, engine::kSi);
    };
    const std::string here = farm_.setup.rules ? dose(*farm_.setup.rules) : "not set";
    if (here != dose(*setup.rules))
      dose_ =
          fmt::format("offers another dose for a brood box: {} -> {}", here, dose(*setup.rules));
  }

  void count(Does does, engine::Noun noun, std::optional<engine::Date> day) {
    ++counts_[{does, noun.one, noun.many, day ? engine::iso_date(*day) : std::string()}];
  }

  const engine::Farm& farm_;
  std::map<What, std::size_t> counts_;
  std::string dose_;
};

}  // namespace

std::vector<std::string> would_do(const engine::Farm& farm, std::span<const engine::Event> held) {
  Sum sum(farm);
  for (const engine::Event& e : held) sum.add(e);
  return sum.lines();
}

}  // namespace storage
