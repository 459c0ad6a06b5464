#include "engine/language/tr.h"

#include <atomic>

#include "engine/language/catalogue.h"

namespace engine {
namespace {

std::atomic<const Catalogue*> the_catalogue{nullptr};

// Empty: the translation does not fit the values.
std::string formatted(const char* translation, fmt::format_args values) {
  try {
    return fmt::vformat(translation, values);
  } catch (const fmt::format_error&) {
    return {};
  }
}

std::string or_english(const char* translation, fmt::string_view english, fmt::format_args values) {
  std::string text;
  if (translation != nullptr) text = formatted(translation, values);
  return text.empty() ? fmt::vformat(english, values) : text;
}

std::string terminated(fmt::string_view text) { return {text.data(), text.size()}; }

}  // namespace

void speak(const Catalogue* catalogue) { the_catalogue.store(catalogue); }

const Catalogue* spoken_catalogue() { return the_catalogue.load(); }

std::string text_in_language(const char* context, fmt::string_view english,
                             fmt::format_args values) {
  const Catalogue* catalogue = spoken_catalogue();
  const char* found =
      catalogue == nullptr ? nullptr : catalogue->find(context, terminated(english).c_str());
  return or_english(found, english, values);
}

std::string many_in_language(fmt::string_view one, fmt::string_view many, long n,
                             fmt::format_args values) {
  const Catalogue* catalogue = spoken_catalogue();
  const char* found =
      catalogue == nullptr ? nullptr : catalogue->find_many(terminated(one).c_str(), n);
  return or_english(found, n == 1 ? one : many, values);
}

std::string translated(const std::string& english) {
  const Catalogue* catalogue = spoken_catalogue();
  const char* found = catalogue == nullptr ? nullptr : catalogue->find(nullptr, english.c_str());
  return found == nullptr || *found == '\0' ? english : found;
}

}  // namespace engine
