// What is heard, when, and that nothing is heard over something else: through SDL's disk driver and
// a program that stands in for the speech program.
#include "ui/platform/sound.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <set>
#include <span>
#include <thread>

namespace sound_test {

namespace {

using namespace std::chrono_literals;
using Samples = std::vector<std::int16_t>;
namespace fs = std::filesystem;

void put(std::vector<std::uint8_t>& file, std::uint32_t n, int bytes) {
  for (int i = 0; i < bytes; ++i) file.push_back(static_cast<std::uint8_t>(n >> (8 * i)));
}

// A WAV file as the speech program writes it to a pipe: its lengths are not known yet and wrong.
std::vector<std::uint8_t> wav(int rate, const Samples& samples) {
  std::vector<std::uint8_t> f{'R', 'I', 'F', 'F'};
  put(f, 0x7ffff024, 4);
  for (const char c : std::string("WAVEfmt ")) f.push_back(static_cast<std::uint8_t>(c));
  put(f, 16, 4), put(f, 1, 2), put(f, 1, 2), put(f, static_cast<std::uint32_t>(rate), 4);
  put(f, static_cast<std::uint32_t>(rate) * 2, 4), put(f, 2, 2), put(f, 16, 2);
  for (const char c : std::string("data")) f.push_back(static_cast<std::uint8_t>(c));
  put(f, 0x7ffff000, 4);
  for (const std::int16_t s : samples) put(f, static_cast<std::uint16_t>(s), 2);
  return f;
}

Samples hum(int hz, int rate, int ms) {
  Samples s;
  for (int i = 0; i < rate * ms / 1000; ++i)
    s.push_back(static_cast<std::int16_t>(
        std::lround(20000 * std::sin(2 * std::numbers::pi * hz * i / rate))));
  return s;
}

// How often the wave goes up through zero, a second: the pitch of a pure tone.
int pitch(std::span<const std::int16_t> x) {
  int ups = 0;
  for (std::size_t i = 1; i < x.size(); ++i) ups += x[i - 1] < 0 && x[i] >= 0 ? 1 : 0;
  return x.empty() ? 0 : static_cast<int>(ups * std::int64_t{44100} / static_cast<int>(x.size()));
}

struct Setting {
  const char* name;
  Setting(const char* n, const std::string& value) : name(n) { ::setenv(n, value.c_str(), 1); }
  ~Setting() { ::unsetenv(name); }
};

// A folder with a program that notes what it was asked to say and "says" 300 ms of 700 Hz.
struct Stand {
  fs::path folder = fs::temp_directory_path() / "duskwalk_sound_test";
  Stand() {
    fs::remove_all(folder);
    fs::create_directories(folder);
    const auto file = wav(22050, hum(700, 22050, 300));
    std::ofstream(folder / "said.wav", std::ios::binary)
        .write(reinterpret_cast<const char*>(file.data()), static_cast<long>(file.size()));
    program("speak", "echo \"$*\" >>" + (folder / "asked").string() + "\ncat " +
                         (folder / "said.wav").string());
  }
  ~Stand() { fs::remove_all(folder); }
  void program(const std::string& name, const std::string& body) {
    std::ofstream(folder / name) << "#!/bin/sh\n" << body << "\n";
    ::chmod((folder / name).c_str(), 0700);
  }
  [[nodiscard]] ui::Voice voice(const std::string& name = "speak") const {
    return {(folder / name).string(), "en", 150};
  }
  [[nodiscard]] std::string asked() const {
    std::ifstream in(folder / "asked");
    return {std::istreambuf_iterator<char>(in), {}};
  }
  [[nodiscard]] Samples recorded() const {
    Samples all(fs::exists(folder / "card") ? fs::file_size(folder / "card") / 2 : 0);
    std::ifstream in(folder / "card", std::ios::binary);
    in.read(reinterpret_cast<char*>(all.data()), static_cast<long>(all.size() * 2));
    return all;
  }
};

// Turns of the loop in real time until nothing is to come.
void run(ui::Sound& sound, std::chrono::milliseconds& now, std::chrono::milliseconds length) {
  for (const auto end = now + length; now < end; now += 5ms) {
    sound.turn(now);
    std::this_thread::sleep_for(5ms);
  }
}

// The first stretch of sound that is neither silence nor cut, from `from` on.
std::pair<std::size_t, std::size_t> stretch(const Samples& all, std::size_t from) {
  while (from < all.size() && std::abs(all[from]) < 500) ++from;
  std::size_t end = from, quiet = 0;
  while (end < all.size() && quiet < 1500) quiet = std::abs(all[end++]) < 500 ? quiet + 1 : 0;
  return {from, end - quiet};
}

}  // namespace

TEST_CASE("tones are told apart by rhythm as well as by pitch") {
  std::set<std::vector<int>> rhythms;
  std::set<int> pitches;
  for (int i = 0; i < ui::kTones; ++i) {
    std::vector<int> rhythm;
    int sum = 0, length = 0;
    for (const ui::Note& n : ui::notes_of(static_cast<ui::Tone>(i))) {
      rhythm.push_back(n.hz == 0 ? -n.ms : n.ms);
      sum += n.hz * n.ms;
      length += n.hz == 0 ? 0 : n.ms;
    }
    rhythms.insert(rhythm);
    pitches.insert(sum / length / 100);
    CHECK(ui::length_of(static_cast<ui::Tone>(i)) <= 2500);
  }
  CHECK(rhythms.size() == ui::kTones);
  CHECK(pitches.size() == ui::kTones);
}

TEST_CASE("a tone has the notes that it says, as loud as asked") {
  const Samples loud = ui::tone_samples(ui::Tone::Mistake);
  CHECK(loud.size() == 44100 * 400 / 1000);
  CHECK(pitch(loud) == doctest::Approx(800).epsilon(0.01));
  CHECK(*std::ranges::max_element(loud) == doctest::Approx(29490).epsilon(0.01));
  const Samples half = ui::tone_samples(ui::Tone::Mistake, 50);
  CHECK(*std::ranges::max_element(half) == doctest::Approx(14745).epsilon(0.01));
}

TEST_CASE("a WAV file of a pipe is read at the card's rate, and what is none is refused") {
  const auto got = ui::samples_of_wav(wav(22050, hum(700, 22050, 200)), 44100);
  REQUIRE(got);
  CHECK(got->size() == doctest::Approx(44100 * 0.2).epsilon(0.01));
  CHECK(pitch(*got) == doctest::Approx(700).epsilon(0.02));
  CHECK_FALSE(ui::samples_of_wav({}, 44100));
  auto stereo = wav(22050, hum(700, 22050, 10));
  stereo[22] = 2;
  CHECK_FALSE(ui::samples_of_wav(stereo, 44100));
  for (std::size_t cut = 0; cut < 44; ++cut) {  // every shorter head ends without a crash
    auto head = wav(22050, {});
    head.resize(cut);
    (void)ui::samples_of_wav(head, 44100);
  }
}

TEST_CASE("what is said waits for the tone, and both are heard whole") {
  Stand stand;
  {
    const Setting driver("SDL_AUDIODRIVER", "disk"),
        file("SDL_DISKAUDIOFILE", stand.folder / "card");
    ui::Sound sound(stand.voice());
    auto now = 1000ms;
    sound.set({}, 150);
    sound.tone(ui::Tone::Mistake, now);
    sound.say("B four. Two grams. Set.", now);
    run(sound, now, 1500ms);
    CHECK_FALSE(sound.sounding());
  }
  CHECK(stand.asked() == "-v en -s 150 --stdout -- B four. Two grams. Set.\n");
  const Samples all = stand.recorded();
  const auto [tone, tone_end] = stretch(all, 0);
  const std::span<const std::int16_t> first(&all[tone], tone_end - tone);
  CHECK(first.size() == doctest::Approx(44100 * 0.4).epsilon(0.05));
  CHECK(pitch(first) == doctest::Approx(800).epsilon(0.02));
  const auto [said, said_end] = stretch(all, tone_end);
  const std::span<const std::int16_t> second(&all[said], said_end - said);
  CHECK(second.size() == doctest::Approx(44100 * 0.3).epsilon(0.05));
  CHECK(pitch(second) == doctest::Approx(700).epsilon(0.02));
  CHECK(stretch(all, said_end).first == all.size());
}

TEST_CASE("the same is not said twice in a row, but again after a while") {
  Stand stand;
  const Setting driver("SDL_AUDIODRIVER", "dummy");
  ui::Sound sound(stand.voice());
  auto now = 1000ms;
  sound.say("Lift from B four.", now);
  run(sound, now, 100ms);
  sound.say("Lift from B four.", now);
  run(sound, now, 100ms);
  CHECK(std::ranges::count(stand.asked(), '\n') == 1);
  now += ui::kNotTwice;
  sound.say("Lift from B four.", now);
  run(sound, now, 100ms);
  CHECK(std::ranges::count(stand.asked(), '\n') == 2);
}

TEST_CASE("off means that no program is started and what was being said ends") {
  Stand stand;
  const Setting driver("SDL_AUDIODRIVER", "dummy");
  ui::Sound sound(stand.voice());
  auto now = 1000ms;
  sound.say("B four.", now);
  run(sound, now, 150ms);
  CHECK(sound.sounding());
  sound.set({100, false}, 150);
  CHECK_FALSE(sound.sounding());
  sound.say("B five.", now);
  run(sound, now, 100ms);
  CHECK(stand.asked().find("five") == std::string::npos);
}

TEST_CASE("a speech program that is missing, fails or hangs costs nothing but the words") {
  Stand stand;
  const Setting driver("SDL_AUDIODRIVER", "dummy");
  stand.program("fails", "exit 1");
  stand.program("hangs", "exec sleep 60");
  for (const char* name : {"missing", "fails", "hangs"}) {
    INFO(std::string(name));
    ui::Sound sound(stand.voice(name));
    auto now = 1000ms;
    sound.say("B four.", now);
    run(sound, now, 60ms);
    CHECK_FALSE(sound.sounding());
    now += 5000ms;  // longer than anybody waits
    sound.turn(now);
    CHECK_FALSE(sound.wake());
    sound.tone(ui::Tone::Mistake, now);
    CHECK(sound.sounding());
  }
}

}  // namespace sound_test
