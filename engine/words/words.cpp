#include "engine/words/words.h"

#include <fmt/format.h>

#include <array>
#include <cassert>

namespace engine {
namespace {

template <class E, std::size_t N>
const char* pick(E value, const std::array<const char*, N>& list) {
  static_assert(N == enum_names(E{}).size(), "one phrase for each value");
  assert(static_cast<std::size_t>(value) < N);
  return list[static_cast<std::size_t>(value)];
}

template <std::size_t N>
using List = std::array<const char*, N>;

}  // namespace

Units units_of(const Setup& setup) { return {setup.mass_unit, setup.temperature_unit}; }

const char* words(Flight f) {
  return pick(f, List<3>{"no bees flying", "some bees flying", "bees flying heavily"});
}

const char* words(PassReason r) {
  return pick(r, List<8>{"bees flying", "dead-out", "too weak", "queenless", "honey supers on",
                         "out of reach", "aggressive", "other reason"});
}

const char* words(MishapKind m) {
  return pick(m, List<6>{"vaporizer dropped", "seal leaking", "acid spilled", "vapor breathed in",
                         "stung", "vaporizer not recovering"});
}

const char* words(Protection p) {
  return pick(p,
              List<5>{"respirator", "eye protection", "gloves", "rinse water", "nobody downwind"});
}

const char* words(KitSort s) {
  return pick(s, List<4>{"vaporizer", "cloth", "battery", "respirator"});
}

const char* words(Supers s) {
  return pick(s, List<3>{"no honey supers may be on", "honey supers may stay on",
                         "not entered whether honey supers may stay on"});
}

const char* words(CountMethod m) {
  return pick(m, List<4>{"alcohol wash", "sugar roll", "sticky board", "other count"});
}

const char* words(Method m) {
  return pick(m, List<8>{"oxalic acid vapor", "oxalic acid dribble", "strip", "formic acid",
                         "thymol", "hop acids", "brood removal", "other method"});
}

const char* words(Phase p) {
  return pick(p, List<5>{"to do", "under vapor", "covered", "done", "passed over"});
}

const char* words(ComeBackWhy w) {
  return pick(w, List<9>{"bees flew heavily", "short dwell", "short seal", "passed over", "mishap",
                         "not reached", "left covered: the bees need air",
                         "the clock was changed, time not known", "vapor stopped too early"});
}

const char* words(Basis b) { return pick(b, List<3>{"dihydrate", "product", "anhydrous"}); }
const char* words(Weekday d) {
  return pick(
      d, List<7>{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"});
}
const char* words(LossWhy w) {
  return pick(w, List<9>{"rain", "wind", "too cold", "bees flying", "no time", "kit failed",
                         "other reason", "dark", "called away"});
}
const char* words(HaltWhy w) {
  return pick(w, List<3>{"battery empty", "vaporizer failed", "other reason"});
}
const char* words(ColonySort s) { return pick(s, List<4>{"hive", "nuc", "swarm", "package"}); }
const char* words(Leak l) {
  return pick(l, List<4>{"upper entrance", "drain hole", "screened floor", "cracks"});
}
const char* words(BroodFact b) {
  return pick(b, List<4>{"queen caged", "queen released", "no brood found", "brood seen"});
}
const char* words(DisposalWhy w) {
  return pick(w, List<6>{"expired", "spilled", "spoiled", "not needed any more", "given away",
                         "other reason"});
}
const char* words(Theme t) { return pick(t, List<4>{"sun", "dusk", "night", "by the sun"}); }
const char* words(MassUnit u) { return pick(u, List<2>{"grams", "ounces"}); }
const char* words(TemperatureUnit u) { return pick(u, List<2>{"Celsius", "Fahrenheit"}); }

std::string words(const ComeBackReason& r) {
  std::string out = words(r.why);
  if (r.passed) out += fmt::format(": {}", words(*r.passed));
  if (r.mishap) out += fmt::format(": {}", words(*r.mishap));
  if (r.length) out += fmt::format(" ({})", minutes_seconds(*r.length));
  return out;
}

const char* sentence(Refusal r) {
  return pick(
      r,
      List<37>{
          "",
          "This entry is out of step with the journal of its tablet; read the journal again.",
          "This yard is not in the farm; add it first.",
          "This colony is not in the farm; add it first.",
          "This piece of kit is not in the farm or not on this walk; add it first.",
          "This lot of acid is not on the shelf; enter it first.",
          "This course is not planned; plan it first.",
          "There is no such walk; open one first.",
          "There is no such entry in the journal.",
          "This is in the farm already.",
          "It needs a name.",
          "This number or date is outside what is possible; check it.",
          "This is another sort of kit; choose the right one.",
          "This yard was given up; choose another.",
          "This colony was lost; choose another.",
          "This colony is not part of this walk.",
          "There is no colony to treat; add colonies to the yard first.",
          "Take at least one vaporizer along.",
          "Another walk is still open on this tablet; close it first.",
          "This walk is closed; open a new one.",
          "The walk is paused; resume it first.",
          "First confirm each protection: respirator, eye protection, gloves, rinse water, nobody "
          "downwind.",
          "This protection is confirmed already.",
          "This vaporizer stands in another colony; lift it there first.",
          "The vaporizer is still in; lift it first.",
          "This colony is not under vapor; set the vaporizer first.",
          "No cloth lies on this colony and no vaporizer stands in it.",
          "This colony was treated in this walk; it cannot be passed over now.",
          "The walk is not paused.",
          "This entry is struck already.",
          "A strike cannot be struck; take it back instead.",
          "Other entries stand on this one; strike those first.",
          "This entry cannot be corrected like that; strike it and enter it anew.",
          "This strike does not hold, so there is nothing to take back.",
          "One walk treated both, so they are two; give one of them another name.",
          "The vapor in this colony has stopped already.",
          "The vapor in this colony did not stop.",
      });
}

std::string words(Mass m, Basis basis, Units units) {
  return fmt::format("{} {}", show(m, units.mass), words(basis));
}

const char* compass(int degrees) {
  constexpr List<8> kEight{"the north", "the north-east", "the east", "the south-east",
                           "the south", "the south-west", "the west", "the north-west"};
  const int turned = ((degrees % 360) + 360 + 22) % 360;  // each sector is 45 degrees wide
  return kEight[static_cast<std::size_t>(turned / 45)];
}

std::string words(const Conditions& c, Units units) {
  std::string out;
  if (c.temperature) out += show(*c.temperature, units.temperature) + ", ";
  out += words(c.flight);
  if (c.wind_dm_s || c.wind_from_deg) out += ", wind";
  if (c.wind_dm_s) out += fmt::format(" {:.1f} m/s", *c.wind_dm_s / 10.0);
  if (c.wind_from_deg)
    out += fmt::format(" from {} ({}°)", compass(*c.wind_from_deg), *c.wind_from_deg);
  out += c.rain ? ", rain" : ", no rain";
  return out;
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string short_device(DeviceId device) { return text(device).substr(28); }

std::string short_ref(const EntryRef& ref) {
  return fmt::format("{}-{}", short_device(ref.device), ref.seq);
}

}  // namespace engine
