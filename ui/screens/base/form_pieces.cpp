// Fields that several forms have.
#include <fmt/format.h>

#include <cmath>

#include "engine/words/lookup.h"
#include "ui/screens/base/body_fields.h"

namespace ui {

FormField options_field(std::string name, std::vector<std::string> list, int chosen,
                        std::function<void(std::size_t)> set) {
  std::string value;
  if (chosen >= 0 && chosen < static_cast<int>(list.size()))
    value = list[static_cast<std::size_t>(chosen)];
  return {std::move(name), value, {}, OptionsField{std::move(list), chosen, std::move(set)}};
}

FormField words_field(std::string name, const std::string& now,
                      std::function<void(const std::string&)> set, std::string hint) {
  return {std::move(name), now, std::move(hint),
          WordsField{TextAsk{{}, 60, true}, now, std::move(set)}};
}

FormField number_field(std::string name, std::string value, const NumberAsk& ask,
                       std::function<void(double)> set, std::string hint) {
  return {std::move(name), std::move(value), std::move(hint), NumberField{ask, std::move(set)}};
}

FormField day_field(std::string name, std::optional<engine::Date> now,
                    std::function<void(engine::Date)> set, std::string hint) {
  return {std::move(name), now ? day_words(*now) : std::string(), std::move(hint),
          DayField{std::move(set)}};
}

FormField time_field(std::optional<int>& minute) {
  NumberAsk ask{"Time of day", "", 0, 2359};
  ask.hint = "hours and minutes: 2015";
  const std::string now =
      minute ? engine::clock_time(std::chrono::minutes{*minute}) : std::string("not known");
  return number_field("Time", now, ask, [&minute](double value) {
    if (const auto typed = minute_typed(value)) minute = typed;
  });
}

FormField mass_field(const Look& look, std::string name, engine::Mass& mass, double most_g) {
  const engine::Mass most{static_cast<std::int64_t>(most_g * 1000)};
  const NumberAsk ask{name, mass_unit(look), 0.01, mass_shown(look, most), 2};
  return number_field(std::move(name), mass.mg > 0 ? show(look, mass) : std::string(), ask,
                      [&look, &mass](double value) { mass = mass_typed(look, value); });
}

FormField lot_field(const Look& look, std::optional<engine::LotId>& lot) {
  std::vector<std::pair<engine::LotId, std::string>> known;
  for (const auto& [id, l] : look.farm.lots)
    known.emplace_back(id,
                       engine::lot_called(look.farm, id) + ", " + show(look, l.left()) + " left");
  return maybe_field("Lot", known, lot);
}

FormField given_or_passed_field(const std::optional<engine::PassReason>& passed,
                                std::function<void(std::optional<engine::PassReason>)> set) {
  std::vector<std::string> list = all_words<engine::PassReason>();
  for (std::string& words : list) words = "passed over: " + words;
  list.insert(list.begin(), "vapor given");
  return options_field(
      "What", std::move(list), passed ? static_cast<int>(*passed) + 1 : 0,
      [set = std::move(set)](std::size_t i) {
        set(i == 0 ? std::nullopt : std::optional(static_cast<engine::PassReason>(i - 1)));
      });
}

FormField seconds_field(std::string name, std::optional<engine::Seconds>& length,
                        std::string hint) {
  const NumberAsk ask{name + " in seconds", "s", 0, 7200};
  return number_field(
      std::move(name),
      length ? engine::minutes_seconds(*length) + " min" : std::string("not known"), ask,
      [&length](double value) { length = engine::Seconds{std::lround(value)}; }, std::move(hint));
}

void add_weather(const Look& look, std::optional<engine::Conditions>& weather,
                 std::vector<FormField>& fields) {
  const auto& air = weather ? weather->temperature : std::nullopt;
  fields.push_back(number_field(
      "Air", air ? engine::show(*air, look.farm.setup.temperature_unit) : std::string(),
      ask_air(look, "Air temperature"),
      [&weather, &look](double value) {
        if (!weather) weather.emplace();
        weather->temperature = air_typed(look, value);
      },
      "temperature then"));
  std::vector<std::string> list = all_words<engine::Flight>();
  list.insert(list.begin(), "not noted");
  const int chosen = weather ? static_cast<int>(weather->flight) + 1 : 0;
  fields.push_back(options_field("Flight", std::move(list), chosen, [&weather](std::size_t i) {
    if (i == 0) return weather.reset();
    if (!weather) weather.emplace();
    weather->flight = static_cast<engine::Flight>(i - 1);
  }));
}

}  // namespace ui
