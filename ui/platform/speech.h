// ui/platform/speech.h -- words to samples, by a speech program that runs as a process of its own.
//
// The program is espeak-ng (Debian: espeak-ng). It is under the GPL and stays a separate program,
// which is started for each sentence (24 to 70 ms to the first sound) and writes a WAV file to its
// standard output. Nothing here plays a sound: see sound.h. Where the program is missing, hangs or
// writes something else, nothing is said. One thread only.
#pragma once
#include <sys/types.h>

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ui/platform/file_handle.h"

namespace ui {

struct Voice {
  std::string program = "espeak-ng";  // looked for in the PATH
  std::string language = "en";
  int words_a_minute = 160;  // 80 to 400; own choice for a respirator's noise
};

// One channel of samples at `rate_hz`, of a WAV file as far as it has come; nothing: it is none.
// Only 16 bits a sample and one channel are read.
[[nodiscard]] std::optional<std::vector<std::int16_t>> samples_of_wav(
    const std::vector<std::uint8_t>& file, int rate_hz);

class Speech {
 public:
  using Time = std::chrono::milliseconds;

  Speech() = default;
  ~Speech() { stop(); }
  Speech(const Speech&) = delete;
  Speech& operator=(const Speech&) = delete;

  // Ends what is being worked out and begins with these words. False: the program did not start.
  bool start(const std::string& words, const Voice& voice, Time now);
  // Ends it; its samples never come.
  void stop();
  // Takes what has come. The samples, once, when all of them are there; empty when it failed.
  [[nodiscard]] std::optional<std::vector<std::int16_t>> take(int rate_hz, Time now);

  [[nodiscard]] bool working() const { return pid_ > 0; }
  // Readable when there is something to take; -1: nothing is being worked out.
  [[nodiscard]] int fd() const { return pipe_.get(); }

 private:
  void reap(bool kill_it);

  pid_t pid_ = 0;
  FileHandle pipe_;
  std::vector<std::uint8_t> got_;
  Time since_{};
};

}  // namespace ui
