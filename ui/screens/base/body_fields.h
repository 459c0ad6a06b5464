// ui/screens/base/body_fields.h -- the fields of an entry, for correcting it and for entering it.
#pragma once
#include "ui/screens/base/form.h"

namespace ui {

// What of the body may be edited, in the order in which a keeper asks for it. The setters change
// `body`, which must stay where it is while the fields are used.
[[nodiscard]] std::vector<FormField> fields_of(const Look& look, engine::ReplacementBody& body);
[[nodiscard]] std::vector<FormField> treatment_fields(const Look& look,
                                                      engine::OtherTreatmentGiven& body);
[[nodiscard]] std::vector<FormField> disposal_fields(const Look& look, engine::AcidDisposed& body);

// Pieces that forms share.
[[nodiscard]] FormField day_field(std::string name, std::optional<engine::Date> now,
                                  std::function<void(engine::Date)> set, std::string hint = {});
[[nodiscard]] FormField words_field(std::string name, const std::string& now,
                                    std::function<void(const std::string&)> set,
                                    std::string hint = {});
[[nodiscard]] FormField time_field(std::optional<int>& minute);
[[nodiscard]] FormField mass_field(const Look& look, std::string name, engine::Mass& mass,
                                   double most_g);
[[nodiscard]] FormField number_field(std::string name, std::string value, const NumberAsk& ask,
                                     std::function<void(double)> set, std::string hint = {});
[[nodiscard]] FormField options_field(std::string name, std::vector<std::string> list, int chosen,
                                      std::function<void(std::size_t)> set);
[[nodiscard]] FormField lot_field(const Look& look, std::optional<engine::LotId>& lot);
[[nodiscard]] FormField seconds_field(std::string name, std::optional<engine::Seconds>& length,
                                      std::string hint);
// "vapor given", or one of the reasons to pass over.
[[nodiscard]] FormField given_or_passed_field(
    const std::optional<engine::PassReason>& passed,
    std::function<void(std::optional<engine::PassReason>)> set);
// Of a late entry: lot and times of a treatment; weather and words of either sort.
void add_late_course(const Look& look, engine::EnteredLate& body, std::vector<FormField>& list);
void add_late_words(const Look& look, engine::EnteredLate& body, std::vector<FormField>& list);
void add_weather(const Look& look, std::optional<engine::Conditions>& weather,
                 std::vector<FormField>& fields);

// "not known", or one of those by its words.
template <class IdType>
FormField maybe_field(std::string name, const std::vector<std::pair<IdType, std::string>>& known,
                      std::optional<IdType>& chosen) {
  std::vector<std::string> list = {"not known"};
  std::vector<IdType> ids;
  int at = 0;
  for (const auto& [id, words] : known) {
    if (chosen == id) at = static_cast<int>(list.size());
    ids.push_back(id);
    list.push_back(words);
  }
  return options_field(std::move(name), std::move(list), at, [ids, &chosen](std::size_t i) {
    chosen = i == 0 ? std::nullopt : std::optional(ids[i - 1]);
  });
}

// Every word of a closed list, in its order.
template <class E>
std::vector<std::string> all_words() {
  std::vector<std::string> list;
  for (std::size_t i = 0; i < enum_names(E{}).size(); ++i)
    list.emplace_back(engine::words(static_cast<E>(i)));
  return list;
}
template <class E>
FormField enum_field(std::string name, E& value) {
  return options_field(std::move(name), all_words<E>(), static_cast<int>(value),
                       [&value](std::size_t i) { value = static_cast<E>(i); });
}

}  // namespace ui
