// ui/platform/tones.h -- the tones that call the keeper, told apart by rhythm as well as by pitch.
//
// One channel, kToneRate samples a second. Pitches between 800 and 2600 Hz, for small speakers
// outdoors, and rhythms are own choices: no source.
#pragma once
#include <cstdint>
#include <span>
#include <vector>

namespace ui {

inline constexpr int kToneRate = 44100;

enum class Tone {
  DwellReady,  // high and low in turn, even: the hive with the finished vaporizer waits
  SealReady,   // two short, one long: a cloth may come off
  SealLong,    // slow pairs, low: a cloth lies far longer than it should
  Battery,     // falling steps: the charge may not last
  Mistake      // one low buzz: nothing was done
};
inline constexpr int kTones = 5;

// A pitch of 0 is silence.
struct Note {
  int hz = 0, ms = 0;
};
[[nodiscard]] std::span<const Note> notes_of(Tone tone);

// `volume`: 1 to 100.
[[nodiscard]] std::vector<std::int16_t> tone_samples(Tone tone, int volume = 100);
// In ms.
[[nodiscard]] int length_of(Tone tone);

}  // namespace ui
