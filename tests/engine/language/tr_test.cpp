#include "engine/language/tr.h"

#include <doctest/doctest.h>

#include <cstring>
#include <string>

#include "engine/language/catalogue.h"

namespace tr_test {

using engine::tr;
using engine::tr_in;
using engine::tr_many;

namespace {

// What a file could say, the wrong as well.
class Made : public engine::Catalogue {
 public:
  [[nodiscard]] const char* find(const char* context, const char* english) const override {
    const std::string of = context == nullptr ? "" : context;
    if (of == "amount" && std::strcmp(english, "Dose") == 0) return "Dosis";
    if (!of.empty()) return nullptr;
    if (std::strcmp(english, "{} of {}") == 0) return "{} de {}";
    if (std::strcmp(english, "{} in {}") == 0) return "en {1}: {0}";
    if (std::strcmp(english, "one {} lost") == 0) return "{} {} {}";
    if (std::strcmp(english, "one {} changed") == 0) return "{:d}";
    if (std::strcmp(english, "one {} open") == 0) return "{";
    return nullptr;
  }
  [[nodiscard]] const char* find_many(const char* one, long n) const override {
    if (std::strcmp(one, "{} cloth") != 0) return nullptr;
    return n == 1 ? "{} paño" : "{} paños";
  }
};

struct Spoken {
  Made made;
  Spoken() { engine::speak(&made); }
  Spoken(const Spoken&) = delete;
  Spoken& operator=(const Spoken&) = delete;
  ~Spoken() { engine::speak(nullptr); }
};

}  // namespace

TEST_CASE("without a catalogue every text is English") {
  CHECK(tr("{} of {}", 3, 8) == "3 of 8");
  CHECK(tr_many("{} cloth", "{} cloths", 1) == "1 cloth");
  CHECK(tr_many("{} cloth", "{} cloths", 0) == "0 cloths");
  CHECK(tr_in("amount", "Dose") == "Dose");
  CHECK(engine::translated(engine::to_translate("Menu")) == "Menu");
}

TEST_CASE("a catalogue gives the words, their order, the form for a number and the meaning") {
  const Spoken spoken;
  CHECK(tr("{} of {}", 3, 8) == "3 de 8");
  CHECK(tr("{} in {}", "lift", std::string("0:30")) == "en 0:30: lift");
  CHECK(tr_many("{} cloth", "{} cloths", 1) == "1 paño");
  CHECK(tr_many("{} cloth", "{} cloths", 2) == "2 paños");
  CHECK(tr_in("amount", "Dose") == "Dosis");
  CHECK(tr("Dose") == "Dose");
}

TEST_CASE("a translation that does not fit its values gives way to the English text") {
  const Spoken spoken;
  CHECK(tr("one {} lost", "cloth") == "one cloth lost");
  CHECK(tr("one {} changed", "cloth") == "one cloth changed");
  CHECK(tr("one {} open", "cloth") == "one cloth open");
  CHECK(tr("nobody translated {}", "this") == "nobody translated this");
}

}  // namespace tr_test
