#include "engine/words/words.h"

#include <fmt/format.h>

#include <array>
#include <cassert>

#include "engine/language/tr.h"

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
  return pick(f, List<3>{to_translate("no bees flying"), to_translate("some bees flying"),
                         to_translate("bees flying heavily")});
}

const char* words(PassReason r) {
  return pick(r, List<8>{to_translate("bees flying"), to_translate("dead-out"),
                         to_translate("too weak"), to_translate("queenless"),
                         to_translate("honey supers on"), to_translate("out of reach"),
                         to_translate("aggressive"), to_translate("other reason")});
}

const char* words(MishapKind m) {
  return pick(m, List<6>{to_translate("vaporizer dropped"), to_translate("seal leaking"),
                         to_translate("acid spilled"), to_translate("vapor breathed in"),
                         to_translate("stung"), to_translate("vaporizer not recovering")});
}

const char* words(Protection p) {
  return pick(
      p, List<5>{to_translate("respirator"), to_translate("eye protection"), to_translate("gloves"),
                 to_translate("rinse water"), to_translate("nobody downwind")});
}

const char* words(KitSort s) {
  return pick(s, List<4>{to_translate("vaporizer"), to_translate("cloth"), to_translate("battery"),
                         to_translate("respirator")});
}

const char* words(Supers s) {
  return pick(s, List<3>{to_translate("no honey supers may be on"),
                         to_translate("honey supers may stay on"),
                         to_translate("not entered whether honey supers may stay on")});
}

const char* words(CountMethod m) {
  return pick(m, List<4>{to_translate("alcohol wash"), to_translate("sugar roll"),
                         to_translate("sticky board"), to_translate("other count")});
}

const char* words(Method m) {
  return pick(m, List<8>{to_translate("oxalic acid vapor"), to_translate("oxalic acid dribble"),
                         to_translate("strip"), to_translate("formic acid"), to_translate("thymol"),
                         to_translate("hop acids"), to_translate("brood removal"),
                         to_translate("other method")});
}

const char* words(Phase p) {
  return pick(p,
              List<5>{to_translate("to do"), to_translate("under vapor"), to_translate("covered"),
                      to_translate("done"), to_translate("passed over")});
}

const char* words(ComeBackWhy w) {
  return pick(
      w, List<9>{to_translate("bees flew heavily"), to_translate("short dwell"),
                 to_translate("short seal"), to_translate("passed over"), to_translate("mishap"),
                 to_translate("not reached"), to_translate("left covered: the bees need air"),
                 to_translate("the clock was changed, time not known"),
                 to_translate("vapor stopped too early")});
}

const char* words(Basis b) {
  return pick(
      b, List<3>{to_translate("dihydrate"), to_translate("product"), to_translate("anhydrous")});
}
const char* words(Weekday d) {
  return pick(d, List<7>{to_translate("Monday"), to_translate("Tuesday"), to_translate("Wednesday"),
                         to_translate("Thursday"), to_translate("Friday"), to_translate("Saturday"),
                         to_translate("Sunday")});
}
const char* words(LossWhy w) {
  return pick(
      w, List<9>{to_translate("rain"), to_translate("wind"), to_translate("too cold"),
                 to_translate("bees flying"), to_translate("no time"), to_translate("kit failed"),
                 to_translate("other reason"), to_translate("dark"), to_translate("called away")});
}
const char* words(HaltWhy w) {
  return pick(w, List<3>{to_translate("battery empty"), to_translate("vaporizer failed"),
                         to_translate("other reason")});
}
const char* words(ColonySort s) {
  return pick(s, List<4>{to_translate("hive"), to_translate("nuc"), to_translate("swarm"),
                         to_translate("package")});
}
const char* words(Leak l) {
  return pick(l, List<4>{to_translate("upper entrance"), to_translate("drain hole"),
                         to_translate("screened floor"), to_translate("cracks")});
}
const char* words(BroodFact b) {
  return pick(b, List<4>{to_translate("queen caged"), to_translate("queen released"),
                         to_translate("no brood found"), to_translate("brood seen")});
}
const char* words(DisposalWhy w) {
  return pick(w, List<6>{to_translate("expired"), to_translate("spilled"), to_translate("spoiled"),
                         to_translate("not needed any more"), to_translate("given away"),
                         to_translate("other reason")});
}
const char* words(Theme t) {
  return pick(t, List<4>{to_translate("sun"), to_translate("dusk"), to_translate("night"),
                         to_translate("by the sun")});
}
const char* words(MassUnit u) {
  return pick(u, List<2>{to_translate("grams"), to_translate("ounces")});
}
const char* words(TemperatureUnit u) {
  return pick(u, List<2>{to_translate("Celsius"), to_translate("Fahrenheit")});
}

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
          to_translate(
              "This entry is out of step with the journal of its tablet; read the journal again."),
          to_translate("This yard is not in the farm; add it first."),
          to_translate("This colony is not in the farm; add it first."),
          to_translate("This piece of kit is not in the farm or not on this walk; add it first."),
          to_translate("This lot of acid is not on the shelf; enter it first."),
          to_translate("This course is not planned; plan it first."),
          to_translate("There is no such walk; open one first."),
          to_translate("There is no such entry in the journal."),
          to_translate("This is in the farm already."),
          to_translate("It needs a name."),
          to_translate("This number or date is outside what is possible; check it."),
          to_translate("This is another sort of kit; choose the right one."),
          to_translate("This yard was given up; choose another."),
          to_translate("This colony was lost; choose another."),
          to_translate("This colony is not part of this walk."),
          to_translate("There is no colony to treat; add colonies to the yard first."),
          to_translate("Take at least one vaporizer along."),
          to_translate("Another walk is still open on this tablet; close it first."),
          to_translate("This walk is closed; open a new one."),
          to_translate("The walk is paused; resume it first."),
          to_translate("First confirm each protection: respirator, eye protection, gloves, rinse "
                       "water, nobody "
                       "downwind."),
          to_translate("This protection is confirmed already."),
          to_translate("This vaporizer stands in another colony; lift it there first."),
          to_translate("The vaporizer is still in; lift it first."),
          to_translate("This colony is not under vapor; set the vaporizer first."),
          to_translate("No cloth lies on this colony and no vaporizer stands in it."),
          to_translate("This colony was treated in this walk; it cannot be passed over now."),
          to_translate("The walk is not paused."),
          to_translate("This entry is struck already."),
          to_translate("A strike cannot be struck; take it back instead."),
          to_translate("Other entries stand on this one; strike those first."),
          to_translate("This entry cannot be corrected like that; strike it and enter it anew."),
          to_translate("This strike does not hold, so there is nothing to take back."),
          to_translate("One walk treated both, so they are two; give one of them another name."),
          to_translate("The vapor in this colony has stopped already."),
          to_translate("The vapor in this colony did not stop."),
      });
}

std::string words(Mass m, Basis basis, Units units) {
  return fmt::format("{} {}", show(m, units.mass), words(basis));
}

const char* compass(int degrees) {
  constexpr List<8> kEight{to_translate("the north"), to_translate("the north-east"),
                           to_translate("the east"),  to_translate("the south-east"),
                           to_translate("the south"), to_translate("the south-west"),
                           to_translate("the west"),  to_translate("the north-west")};
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
