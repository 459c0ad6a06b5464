#include "ui/platform/sound.h"

#include <algorithm>

namespace ui {

namespace {

constexpr Sound::Time kLook{15};  // how often the speech program and the card are looked at
constexpr int kBreathMs = 100;    // of silence before a sentence, so that it is heard apart

}  // namespace

void Sound::set(const Loudness& loudness, int words_a_minute) {
  loudness_ = loudness;
  voice_.words_a_minute = std::clamp(words_a_minute, 80, 400);
  if (loudness_.spoken) return;
  speech_.stop();
  ready_.clear();
  if (speaking_) hush();
}

void Sound::tone(Tone tone, Time now) {
  if (speaking_) hush();
  card_.play(tone_samples(tone, loudness_.volume), now);
}

void Sound::say(const std::string& words, Time now) {
  if (!loudness_.spoken || words.empty()) return;
  if (words == said_ && said_at_ && now - *said_at_ < kNotTwice) return;
  said_ = words;
  said_at_ = now;
  ready_.clear();
  if (speaking_) hush();
  speech_.start(words, voice_, now);
}

void Sound::turn(Time now) {
  if (auto samples = speech_.take(kToneRate, now)) ready_ = std::move(*samples);
  if (!card_.sounding()) speaking_ = false;
  if (!ready_.empty() && !card_.sounding()) play_ready(now);
  card_.rest(now);
}

void Sound::play_ready(Time now) {
  for (std::int16_t& s : ready_)
    s = static_cast<std::int16_t>(s * std::clamp(loudness_.volume, 1, 100) / 100);
  ready_.insert(ready_.begin(), kToneRate * kBreathMs / 1000, 0);
  speaking_ = card_.play(ready_, now);
  ready_.clear();
}

void Sound::hush() {
  card_.hush();
  speaking_ = false;
}

std::optional<Sound::Time> Sound::wake() const {
  if (speech_.working()) return kLook;
  if (!ready_.empty()) return Time{100};
  if (card_.sounding()) return Time{500};
  if (card_.open()) return Time{1000};
  return std::nullopt;
}

}  // namespace ui
