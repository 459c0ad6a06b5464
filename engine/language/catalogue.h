// engine/language/catalogue.h -- the translations that the program speaks with.
//
// A catalogue is handed in once, by whoever starts screens; hundreds of free functions that put a
// sentence together would otherwise carry it through arguments that have nothing to do with it.
// That is the only state here. It changes words alone: no number, decision, identifier or byte of
// a file may depend on it. Without a catalogue everything is English.
#pragma once
#include <string>

namespace engine {

// Immutable once made, so that threads may ask it at the same time.
class Catalogue {
 public:
  Catalogue() = default;
  Catalogue(const Catalogue&) = delete;
  Catalogue& operator=(const Catalogue&) = delete;
  virtual ~Catalogue() = default;

  // The translation of the English text, UTF-8; nullptr: there is none. `context` tells two
  // meanings of one English text apart; nullptr: it has but one. What is returned lives as long as
  // the catalogue.
  [[nodiscard]] virtual const char* find(const char* context, const char* english) const = 0;
  // The form of `one` that the language uses for `n` things.
  [[nodiscard]] virtual const char* find_many(const char* one, long n) const = 0;
};

// From now on texts are taken from `catalogue`, which must outlive every later text; nullptr:
// English. It may be called while other threads make texts: each of them is in one language.
void speak(const Catalogue* catalogue);
[[nodiscard]] const Catalogue* spoken_catalogue();

}  // namespace engine
