#include "ui/platform/alarm.h"

#include <SDL.h>
#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <span>
#include <string>
#include <thread>

namespace alarm_test {

namespace {

using namespace std::chrono_literals;
using Samples = std::vector<std::int16_t>;

// Amplitude of one frequency in a stretch of samples: Goertzel's recurrence (G. Goertzel, American
// Mathematical Monthly 65, 1958), a single bin of the discrete Fourier transform.
double amplitude(std::span<const std::int16_t> x, double hz, double rate_hz) {
  const double w = 2 * std::numbers::pi * hz / rate_hz, c = 2 * std::cos(w);
  double s1 = 0, s2 = 0;
  for (const std::int16_t v : x) {
    const double s0 = v + c * s1 - s2;
    s2 = s1;
    s1 = s0;
  }
  return std::sqrt(s1 * s1 + s2 * s2 - c * s1 * s2) * 2 / static_cast<double>(x.size());
}

// The strongest frequency from 500 to 4000 Hz, in steps of 5.
int strongest(std::span<const std::int16_t> x) {
  int best = 0;
  double most = 0;
  for (int hz = 500; hz <= 4000; hz += 5)
    if (const double a = amplitude(x, hz, 44100); a > most) most = a, best = hz;
  return best;
}

std::vector<int> tones_in(std::span<const std::int16_t> x) {
  constexpr std::size_t kTone = 11025;  // 250 ms
  std::vector<int> tones;
  for (; x.size() >= kTone; x = x.subspan(kTone)) tones.push_back(strongest(x.first(kTone)));
  return tones;
}

// Sets an environment variable for the time of a test.
struct Setting {
  const char* name;
  Setting(const char* n, const std::string& value) : name(n) { ::setenv(n, value.c_str(), 1); }
  ~Setting() { ::unsetenv(name); }
};

// What SDL's disk driver wrote, without the silence before and after.
Samples recorded(const std::string& path) {
  Samples all(std::filesystem::file_size(path) / 2);
  std::ifstream in(path, std::ios::binary);
  in.read(reinterpret_cast<char*>(all.data()), static_cast<std::streamsize>(all.size() * 2));
  const auto heard = [](std::int16_t v) { return v != 0; };
  const auto first = std::find_if(all.begin(), all.end(), heard);
  const auto last = std::find_if(all.rbegin(), all.rend(), heard).base();
  return first < last ? Samples(first, last) : Samples{};
}

// What `act` writes to stderr.
template <class Act>
std::string stderr_of(const Act& act) {
  int ends[2] = {-1, -1};
  REQUIRE(::pipe2(ends, O_NONBLOCK | O_CLOEXEC) == 0);
  const int kept = ::dup(STDERR_FILENO);
  ::dup2(ends[1], STDERR_FILENO);
  act();
  ::dup2(kept, STDERR_FILENO);
  char text[4096] = {};
  const ssize_t got = ::read(ends[0], text, sizeof text);
  for (const int fd : {kept, ends[0], ends[1]}) ::close(fd);
  return {text, got > 0 ? static_cast<std::size_t>(got) : 0};
}

const std::vector<int> kCall{2000, 2600, 2000, 2600, 2000, 2600};

}  // namespace

TEST_CASE("the call is 2000 and 2600 Hz in turn, loud and without clicks") {
  const Samples s = ui::call_samples({});
  CHECK(s.size() == 6 * 11025);
  CHECK(tones_in(s) == kCall);
  const std::span<const std::int16_t> middle(s.data() + 2000, 7000);
  CHECK(amplitude(middle, 2000, 44100) == doctest::Approx(0.9 * 32767).epsilon(0.01));
  CHECK(*std::ranges::max_element(s) <= 29491);
  for (std::size_t tone = 0; tone < 6; ++tone) {
    CHECK(s[tone * 11025] == 0);
    CHECK(std::abs(s[tone * 11025 + 11024]) < 300);
  }
}

TEST_CASE("what reaches the sound card is the call") {
  const std::string path = std::filesystem::temp_directory_path() / "duskwalk_alarm_test.raw";
  {
    const Setting driver("SDL_AUDIODRIVER", "disk"), file("SDL_DISKAUDIOFILE", path);
    ui::Alarm alarm;
    CHECK_FALSE(alarm.sounding());
    REQUIRE(alarm.sound(0ms));
    CHECK(alarm.sounding());
    CHECK(alarm.sound(1ms));  // the call under way; nothing is added
    while (alarm.sounding()) std::this_thread::sleep_for(5ms);
    std::this_thread::sleep_for(100ms);  // the driver's own buffer
  }
  Samples s = recorded(path);
  const Samples want = ui::call_samples({});
  s.insert(s.begin(), 0);  // the call begins with a zero, which was cut with the silence
  s.resize(std::max(s.size(), want.size()));
  CHECK(tones_in(s) == kCall);
  CHECK(s == want);
  std::filesystem::remove(path);
}

TEST_CASE("the sound card is let go a second after the call") {
  const Setting driver("SDL_AUDIODRIVER", "dummy");
  ui::ToneShape brief;
  brief.tone_ms = 20;
  brief.pairs = 1;
  ui::Alarm alarm(brief);
  REQUIRE(alarm.sound(0ms));
  CHECK(SDL_WasInit(SDL_INIT_AUDIO) != 0);
  while (alarm.sounding()) std::this_thread::sleep_for(2ms);
  alarm.rest(100ms);
  alarm.rest(1099ms);
  CHECK(SDL_WasInit(SDL_INIT_AUDIO) != 0);
  alarm.rest(1100ms);
  CHECK(SDL_WasInit(SDL_INIT_AUDIO) == 0);
}

TEST_CASE("hush ends the call at once") {
  const Setting driver("SDL_AUDIODRIVER", "dummy");
  ui::Alarm alarm;
  REQUIRE(alarm.sound(0ms));
  alarm.hush();
  CHECK_FALSE(alarm.sounding());
}

TEST_CASE("without a sound card nothing is heard, said or tried for half a minute") {
  ui::Alarm alarm;
  {
    const Setting driver("SDL_AUDIODRIVER", "alsa");
    const Setting config("ALSA_CONFIG_PATH", "/dev/null");  // no device, whatever this machine has
    bool heard = true;
    CHECK(stderr_of([&] { heard = alarm.sound(1000ms); }).empty());
    CHECK_FALSE(heard);
  }
  const Setting driver("SDL_AUDIODRIVER", "dummy");  // a card is plugged in
  CHECK_FALSE(alarm.sound(30999ms));
  CHECK(alarm.sound(31000ms));
}

}  // namespace alarm_test
