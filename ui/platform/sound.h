// ui/platform/sound.h -- tones and spoken words on one sound card, never one over the other.
//
// A tone ends what is being said, and what is to be said waits for the tone. Of several sentences
// that wait the last one is said; the same sentence is not said again within kNotTwice. Without a
// sound card nothing is heard and nothing fails. One thread only.
#pragma once
#include <optional>
#include <string>

#include "ui/platform/alarm.h"
#include "ui/platform/speech.h"
#include "ui/platform/tones.h"

namespace ui {

inline constexpr Alarm::Time kNotTwice{4000};  // own choice

struct Loudness {
  int volume = 100;    // 1 to 100
  bool spoken = true;  // sentences are said
};

class Sound {
 public:
  using Time = Alarm::Time;

  explicit Sound(Voice voice = {}) : voice_(std::move(voice)) {}

  void set(const Loudness& loudness, int words_a_minute);
  void tone(Tone tone, Time now);
  void say(const std::string& words, Time now);
  // To be called in every turn of the loop: hears the speech program, plays what is ready, lets go
  // of the card.
  void turn(Time now);
  // Ends everything that sounds.
  void hush();

  // When turn() has something to do again; nothing: not before the next tone or sentence.
  [[nodiscard]] std::optional<Time> wake() const;
  [[nodiscard]] bool sounding() const { return card_.sounding(); }

 private:
  void play_ready(Time now);

  Voice voice_;
  Loudness loudness_;
  Alarm card_;
  Speech speech_;
  std::vector<std::int16_t> ready_;  // a sentence, worked out
  bool speaking_ = false;            // what sounds now is a sentence
  std::string said_;                 // last
  std::optional<Time> said_at_;
};

}  // namespace ui
