#include "ui/platform/alarm.h"

#include <SDL.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "ui/platform/file_handle.h"
#include "ui/platform/sdl_handles.h"

namespace ui {
namespace {

constexpr Alarm::Time kRetry{30000};
constexpr Alarm::Time kLinger{1000};  // the card plays its own buffer after ours is empty

// Sends stderr nowhere for as long as it lives: the sound library complains there, many lines each
// time, about a card that is not there.
class QuietStderr {
 public:
  QuietStderr() : kept_(::fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, 3)) {
    std::fflush(stderr);
    const FileHandle nowhere(::open("/dev/null", O_WRONLY | O_CLOEXEC));
    if (kept_ && nowhere) ::dup2(nowhere.get(), STDERR_FILENO);
  }
  QuietStderr(const QuietStderr&) = delete;
  QuietStderr& operator=(const QuietStderr&) = delete;
  ~QuietStderr() {
    std::fflush(stderr);
    if (kept_) ::dup2(kept_.get(), STDERR_FILENO);
  }

 private:
  FileHandle kept_;
};

int samples_in(const ToneShape& s, int ms) { return s.rate_hz * ms / 1000; }

void add_tone(const ToneShape& s, int hz, std::vector<std::int16_t>& out) {
  const int count = samples_in(s, s.tone_ms);
  const int ramp = std::max(1, samples_in(s, s.ramp_ms));
  for (int i = 0; i < count; ++i) {
    const double edge = std::min({1.0, double(i) / ramp, double(count - 1 - i) / ramp});
    const double phase = 2 * std::numbers::pi * hz * i / s.rate_hz;
    out.push_back(static_cast<std::int16_t>(std::lround(32767 * s.peak * edge * std::sin(phase))));
  }
}

}  // namespace

std::vector<std::int16_t> call_samples(const ToneShape& shape) {
  std::vector<std::int16_t> samples;
  for (int n = 0; n < shape.pairs; ++n)
    for (const int hz : {shape.low_hz, shape.high_hz}) add_tone(shape, hz, samples);
  return samples;
}

struct Alarm::Device {
  SdlSystems systems;
  SDL_AudioDeviceID id = 0;

  Device() = default;
  Device(const Device&) = delete;
  Device& operator=(const Device&) = delete;
  ~Device() {
    if (id != 0) SDL_CloseAudioDevice(id);
  }

  bool open(int rate_hz) {
    const QuietStderr quiet;
    if (!systems.start(SDL_INIT_AUDIO)) return false;
    SDL_AudioSpec want{};
    want.freq = rate_hz;
    want.format = AUDIO_S16SYS;
    want.channels = 1;
    want.samples = 1024;
    id = SDL_OpenAudioDevice(nullptr, 0, &want, nullptr, 0);
    if (id != 0) SDL_PauseAudioDevice(id, 0);
    return id != 0;
  }

  [[nodiscard]] bool alive() const { return SDL_GetAudioDeviceStatus(id) == SDL_AUDIO_PLAYING; }
};

Alarm::Alarm(const ToneShape& shape) : shape_(shape), samples_(call_samples(shape)) {}
Alarm::~Alarm() = default;

bool Alarm::take_card(Time now) {
  if (retry_at_ && now < *retry_at_) return false;
  retry_at_.reset();
  auto device = std::make_unique<Device>();
  if (device->open(shape_.rate_hz))
    device_ = std::move(device);
  else
    retry_at_ = now + kRetry;
  return device_ != nullptr;
}

bool Alarm::sound(Time now) {
  if (device_ && !device_->alive()) device_.reset();
  return sounding() || play(samples_, now);
}

bool Alarm::play(const std::vector<std::int16_t>& samples, Time now) {
  if (device_ && !device_->alive()) device_.reset();
  if (!device_ && !take_card(now)) return false;
  quiet_since_.reset();
  const auto bytes = static_cast<Uint32>(samples.size() * sizeof(std::int16_t));
  if (SDL_QueueAudio(device_->id, samples.data(), bytes) == 0) return true;
  device_.reset();
  retry_at_ = now + kRetry;
  return false;
}

void Alarm::hush() { device_.reset(); }

void Alarm::rest(Time now) {
  if (!device_ || sounding()) return;
  if (!quiet_since_) quiet_since_ = now;
  if (now - *quiet_since_ >= kLinger) hush();
}

bool Alarm::sounding() const { return device_ && SDL_GetQueuedAudioSize(device_->id) > 0; }

}  // namespace ui
