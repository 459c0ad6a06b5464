#include "ui/platform/tones.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ui {
namespace {

constexpr int kRampMs = 5;     // up and down, against clicks
constexpr double kPeak = 0.9;  // of full scale

constexpr Note kDwellReady[] = {{2000, 250}, {2600, 250}, {2000, 250},
                                {2600, 250}, {2000, 250}, {2600, 250}};
constexpr Note kSealReady[] = {{1600, 120}, {0, 80}, {1600, 120}, {0, 80}, {1600, 500}};
constexpr Note kSealLong[] = {{1000, 350}, {0, 150}, {1000, 350}, {0, 600},
                              {1000, 350}, {0, 150}, {1000, 350}};
constexpr Note kBattery[] = {{2400, 180}, {2000, 180}, {1700, 180}, {1400, 360}};
constexpr Note kMistake[] = {{800, 400}};

void add_note(const Note& note, double peak, std::vector<std::int16_t>& out) {
  const int count = kToneRate * note.ms / 1000;
  const int ramp = kToneRate * kRampMs / 1000;
  for (int i = 0; i < count; ++i) {
    const double edge = std::min({1.0, double(i) / ramp, double(count - 1 - i) / ramp});
    const double phase = 2 * std::numbers::pi * note.hz * i / kToneRate;
    const double value = note.hz == 0 ? 0 : peak * edge * std::sin(phase);
    out.push_back(static_cast<std::int16_t>(std::lround(32767 * value)));
  }
}

}  // namespace

std::span<const Note> notes_of(Tone tone) {
  switch (tone) {
    case Tone::DwellReady:
      return kDwellReady;
    case Tone::SealReady:
      return kSealReady;
    case Tone::SealLong:
      return kSealLong;
    case Tone::Battery:
      return kBattery;
    case Tone::Mistake:
      return kMistake;
  }
  return {};
}

std::vector<std::int16_t> tone_samples(Tone tone, int volume) {
  std::vector<std::int16_t> out;
  for (const Note& note : notes_of(tone))
    add_note(note, kPeak * std::clamp(volume, 1, 100) / 100, out);
  return out;
}

int length_of(Tone tone) {
  int ms = 0;
  for (const Note& note : notes_of(tone)) ms += note.ms;
  return ms;
}

}  // namespace ui
