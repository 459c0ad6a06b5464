#include "ui/screens/walk/now/walk_speech.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "engine/language/catalogue.h"
#include "engine/language/tr.h"
#include "engine/walk/timers.h"
#include "ui/screens/walk/now/walk_yard.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {
namespace {

using engine::to_translate;
using engine::tr;
using engine::translated;

using engine::Do;

constexpr std::array<const char*, 20> kSmall = {
    "zero",     "one",     "two",     "three",     "four",     "five",    "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<const char*, 10> kTens = {"",      "",      "twenty",  "thirty", "forty",
                                               "fifty", "sixty", "seventy", "eighty", "ninety"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Up to ninety-nine as a number; more, or a leading zero, digit by digit.
std::string number_words(std::string_view digits) {
  if (digits.size() > 2 || (digits.size() == 2 && digits[0] == '0')) {
    std::string all;
    for (const char c : digits)
      all += (all.empty() ? "" : " ") + std::string(kSmall[static_cast<std::size_t>(c - '0')]);
    return all;
  }
  std::size_t n = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), n);
  if (n < 20) return kSmall[n];
  return n % 10 == 0 ? kTens[n / 10] : fmt::format("{} {}", kTens[n / 10], kSmall[n % 10]);
}

// "Two grams", "one point seven five grams"; an ounce is no gram.
std::string spoken_mass(const Look& look, engine::Mass m) {
  const std::string said = shown(look, m);
  const std::size_t space = said.find(' ');
  const std::string number = said.substr(0, space);
  const bool ounces = look.farm.setup.mass_unit == engine::MassUnit::Ounce;
  const char* unit = ounces ? (number == "1" ? to_translate("ounce") : to_translate("ounces"))
                            : (number == "1" ? to_translate("gram") : to_translate("grams"));
  return capital_word(fmt::format("{} {}", spoken(number), translated(unit)));
}

std::string name_of(const Look& look, engine::ColonyId colony) {
  return spoken(called(look, colony));
}

// A seal that ends soon and was not announced yet; empty: none.
std::string soon_off(SpeechMemory& memory, const Look& look, const engine::Walk& walk) {
  for (const engine::Timer& seal : engine::seals(walk, look.now)) {
    if (!seal.sure || seal.due() || seal.left() > kSaidBefore || seal.goal <= kSaidBefore) continue;
    if (!memory.announced.insert({seal.colony, seal.since.since_boot}).second) continue;
    return tr("{}: cloth off in thirty seconds.", name_of(look, seal.colony));
  }
  return {};
}

}  // namespace

std::string spoken(std::string_view words) {
  // A voice of another language reads digits itself, as its language does.
  if (engine::spoken_catalogue() != nullptr) return std::string(words);
  std::string out;
  for (std::size_t i = 0; i < words.size();) {
    if (!is_digit(words[i])) {
      const bool point = words[i] == '.' && i > 0 && is_digit(words[i - 1]);
      out += point ? " point " : std::string(1, words[i]);
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < words.size() && is_digit(words[end])) ++end;
    if (!out.empty() && out.back() != ' ') out += ' ';
    const bool after_point = i > 0 && words[i - 1] == '.';
    // After a point each digit is said by itself.
    for (std::size_t at = i; at < end; at = after_point ? at + 1 : end) {
      if (at > i) out += ' ';
      out += number_words(words.substr(at, after_point ? 1 : end - at));
    }
    i = end;
    if (i < words.size() && words[i] != ' ' && words[i] != '.') out += ' ';
  }
  return out;
}

std::string spoken_prompt(const Look& look, const engine::Walk& walk, const Step& s) {
  const engine::Advice& a = s.advice;
  const std::string colony = name_of(look, a.colony);
  const std::string hold = s.careful.empty() ? "" : " " + tr("Hold to record it.");
  switch (a.what) {
    case Do::Set:
      if (a.hold > engine::Ms{0}) return {};
      return tr("{}. {}. Set.{}", colony, spoken_mass(look, s.dose), hold);
    case Do::SetAgain:
      return tr("{}. {}. Set again.{}", colony, spoken_mass(look, s.dose), hold);
    case Do::Cover:
      if (!a.cloth) return tr("{}: lift.{}", colony, hold);
      return tr("{}: lift. Cloth {}.{}", colony, spoken(cloth_number(look, *a.cloth)), hold);
    case Do::Uncover:
      return tr("{}: cloth off.{}", colony, hold);
    case Do::ChangeBattery:
      return tr("Change the battery.");
    case Do::GoOn:
      if (!a.battery) return tr("{}: no vapor. Then go on.", colony);
      return tr("{}: no vapor. Change the battery. Then go on.", colony);
    case Do::Finished:
      return tr("All done.");
    case Do::Resume:
      return tr("Paused. {} of {} are done.",
                spoken(std::to_string(std::count_if(
                    walk.stops.begin(), walk.stops.end(),
                    [](const engine::Stop& stop) { return stop.phase == engine::Phase::Done; }))),
                spoken(std::to_string(walk.stops.size())));
    case Do::WaitForDwell:
    case Do::WaitForSeal:
    case Do::ConfirmProtection:
      return {};
  }
  return {};
}

std::string speech_wanted(SpeechMemory& memory, const Look& look, const engine::Walk& walk,
                          const UnderWay& view) {
  const std::string prompt = spoken_prompt(look, walk, step_now(look, walk, view));
  if (prompt != memory.prompt) {
    memory.prompt = prompt;
    if (!prompt.empty()) return prompt;
  }
  return soon_off(memory, look, walk);
}

}  // namespace ui
