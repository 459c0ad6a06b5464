// engine/language/tr.h -- texts in the language of the keeper.
//
//   tr("{} of {}", done, all)                          "3 of 8", "3 de 8"
//   tr_many("{} cloth", "{} cloths", n)                the form that the language uses for n
//   tr_in("button", "Dose")                            where one English text has two meanings
//   {to_translate("Menu"), ...} and translated(label)  a table that is there before the language
//
// The English text is checked against its values when it is compiled. A translation comes from a
// file: one that does not fit its values is left out and the English text is shown, so that a bad
// file never takes a sentence away. packaging/translations.py collects the texts by these names.
#pragma once
#include <fmt/format.h>

#include <string>

namespace engine {

// The words behind the templates.
[[nodiscard]] std::string text_in_language(const char* context, fmt::string_view english,
                                           fmt::format_args values);
[[nodiscard]] std::string many_in_language(fmt::string_view one, fmt::string_view many, long n,
                                           fmt::format_args values);

template <class... T>
[[nodiscard]] std::string tr(fmt::format_string<T...> english, T&&... values) {
  return text_in_language(nullptr, english, fmt::make_format_args(values...));
}

// `context` is for the translator; it is not shown.
template <class... T>
[[nodiscard]] std::string tr_in(const char* context, fmt::format_string<T...> english,
                                T&&... values) {
  return text_in_language(context, english, fmt::make_format_args(values...));
}

// `n` chooses the form, and is the one value.
[[nodiscard]] inline std::string tr_many(fmt::format_string<std::size_t&> one,
                                         fmt::format_string<std::size_t&> many, std::size_t n) {
  return many_in_language(one, many, static_cast<long>(n), fmt::make_format_args(n));
}

// Marks a text of a table for the translators; it stays English until `translated` is asked.
[[nodiscard]] constexpr const char* to_translate(const char* english) { return english; }
[[nodiscard]] std::string translated(const std::string& english);

}  // namespace engine
