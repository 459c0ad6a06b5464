// ui/platform/alarm.h -- the sound that calls the keeper back.
//
// Two tones in turn, for small speakers outdoors (2 to 3 kHz: a guess, no source). Made once,
// played through SDL's queue. Never a failure: without a sound card, or with one that was pulled,
// sound() says that nothing is heard and the card is looked for again half a minute later. The
// device is open only while it sounds, since an open one costs power even in silence. One thread
// only.
#pragma once
#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace ui {

struct ToneShape {
  int rate_hz = 44100;
  int low_hz = 2000, high_hz = 2600;
  int tone_ms = 250;
  int ramp_ms = 5;    // up and down, against clicks
  int pairs = 3;      // low and high, so many times
  float peak = 0.9f;  // of full scale
};

// The samples of the call: one channel.
[[nodiscard]] std::vector<std::int16_t> call_samples(const ToneShape& shape);

class Alarm {
 public:
  using Time = std::chrono::milliseconds;  // of a clock that does not jump, from any start

  explicit Alarm(const ToneShape& shape = {});
  ~Alarm();
  Alarm(const Alarm&) = delete;
  Alarm& operator=(const Alarm&) = delete;

  // Plays the call, unless it is being played. True when it can be heard.
  bool sound(Time now);

  // Plays these samples after what is being played. True when they can be heard.
  bool play(const std::vector<std::int16_t>& samples, Time now);

  // Ends it at once.
  void hush();

  // Lets go of the sound card once the call is over. Call it in every turn of the loop.
  void rest(Time now);

  [[nodiscard]] bool sounding() const;
  // The card is held, sounding or not.
  [[nodiscard]] bool open() const { return device_ != nullptr; }

 private:
  struct Device;

  bool take_card(Time now);

  ToneShape shape_;
  std::vector<std::int16_t> samples_;
  std::unique_ptr<Device> device_;   // only while it sounds
  std::optional<Time> retry_at_;     // after a failure
  std::optional<Time> quiet_since_;  // all samples were handed over
};

}  // namespace ui
