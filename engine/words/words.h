// engine/words/words.h -- every closed word of the farm in plain English, and one line for each
// thing that can happen.
//
// The journal keeps `name(value)` (engine/core/names.h); people read `words(value)`. Nothing here
// decides anything. Masses always say what they are a mass of.
#pragma once
#include <string>

#include "engine/farm/farm.h"
#include "engine/walk/come_back.h"

namespace engine {

// In which units numbers are written: the setup's on screens, SI in the register.
struct Units {
  MassUnit mass = MassUnit::Gram;
  TemperatureUnit temperature = TemperatureUnit::Celsius;
  friend bool operator==(const Units&, const Units&) = default;
};
inline constexpr Units kSi{};
[[nodiscard]] Units units_of(const Setup& setup);

[[nodiscard]] const char* words(Flight f);  // "no bees flying"
[[nodiscard]] const char* words(PassReason r);
[[nodiscard]] const char* words(MishapKind m);
[[nodiscard]] const char* words(Protection p);
[[nodiscard]] const char* words(KitSort s);
[[nodiscard]] const char* words(Supers s);
[[nodiscard]] const char* words(CountMethod m);
[[nodiscard]] const char* words(Method m);
[[nodiscard]] const char* words(Phase p);
[[nodiscard]] const char* words(ComeBackWhy w);
[[nodiscard]] const char* words(Basis b);  // after a mass: "dihydrate"
[[nodiscard]] const char* words(Weekday d);
[[nodiscard]] const char* words(LossWhy w);
[[nodiscard]] const char* words(HaltWhy w);
[[nodiscard]] const char* words(ColonySort s);
[[nodiscard]] const char* words(Leak l);
[[nodiscard]] const char* words(BroodFact b);
[[nodiscard]] const char* words(DisposalWhy w);
[[nodiscard]] const char* words(Theme t);
[[nodiscard]] const char* words(MassUnit u);
[[nodiscard]] const char* words(TemperatureUnit u);
[[nodiscard]] std::string words(const ComeBackReason& r);  // "short seal (3:20)"

// What to do about it, one sentence; empty for None.
[[nodiscard]] const char* sentence(Refusal r);

// "2 g dihydrate"; "0.071 oz product".
[[nodiscard]] std::string words(Mass m, Basis basis, Units units);
// "12.5 °C, no bees flying, wind 3.2 m/s from the west (270°), no rain"; temperature and wind are
// left out when they were not noted.
[[nodiscard]] std::string words(const Conditions& c, Units units);
// "the west" for 270: the nearest of eight.
[[nodiscard]] const char* compass(int degrees);
// "1 colony", "2 colonies".
[[nodiscard]] std::string counted(std::size_t n, const char* one, const char* many);

// Eight digits that tell tablets apart on paper: the last ones of the id, which are random. (The
// first ones are the time the id was made: alike on tablets set up together.)
[[nodiscard]] std::string short_device(DeviceId device);
[[nodiscard]] std::string short_ref(const EntryRef& ref);  // "3f9a1c20-17"

// What happened, in one line: "A3: 2 g dihydrate set, vaporizer 1". Names are those of today; of
// what was struck since, those it was added with. Colony and yard are named once, at the start.
[[nodiscard]] std::string describe(const Body& body, const Farm& farm, Units units);
[[nodiscard]] std::string describe(const Body& body, const Farm& farm);  // in the setup's units

}  // namespace engine
