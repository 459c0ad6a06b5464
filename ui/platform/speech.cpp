#include "ui/platform/speech.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <string_view>

extern char** environ;

namespace ui {
namespace {

constexpr Speech::Time kPatience{4000};              // then it hangs
constexpr std::size_t kMostBytes = 8 * 1024 * 1024;  // three minutes at 22050 Hz

std::uint32_t number_at(const std::vector<std::uint8_t>& file, std::size_t at, int bytes) {
  std::uint32_t n = 0;
  for (int i = bytes - 1; i >= 0; --i) n = n << 8U | file[at + static_cast<std::size_t>(i)];
  return n;
}

bool says(const std::vector<std::uint8_t>& file, std::size_t at, std::string_view word) {
  return at + word.size() <= file.size() && std::memcmp(&file[at], word.data(), word.size()) == 0;
}

// Where a chunk's content begins. A length that was written before the end was known may be wrong,
// so the samples go on to the end of the file.
std::optional<std::size_t> chunk(const std::vector<std::uint8_t>& file, std::string_view name) {
  for (std::size_t at = 12; at + 8 <= file.size();) {
    if (says(file, at, name)) return at + 8;
    at += 8 + std::size_t{number_at(file, at + 4, 4)} + number_at(file, at + 4, 4) % 2;
  }
  return std::nullopt;
}

// Straight lines between the samples: good enough for speech on a tablet's speaker.
std::vector<std::int16_t> at_rate(const std::vector<std::int16_t>& in, int from_hz, int to_hz) {
  if (from_hz == to_hz || in.size() < 2) return in;
  std::vector<std::int16_t> out;
  const double pitch = static_cast<double>(from_hz) / to_hz;
  const auto last = static_cast<double>(in.size() - 1);
  out.reserve(static_cast<std::size_t>(last / pitch) + 1);
  for (double at = 0; at < last; at = static_cast<double>(out.size()) * pitch) {
    const auto i = static_cast<std::size_t>(at);
    const double part = at - static_cast<double>(i);
    out.push_back(static_cast<std::int16_t>(in[i] + part * (in[i + 1] - in[i])));
  }
  return out;
}

// What a child is started with.
class Plumbing {
 public:
  explicit Plumbing(int out) {
    ::posix_spawn_file_actions_init(&actions_);
    ::posix_spawn_file_actions_adddup2(&actions_, out, STDOUT_FILENO);
    ::posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    ::posix_spawn_file_actions_addopen(&actions_, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  }
  Plumbing(const Plumbing&) = delete;
  Plumbing& operator=(const Plumbing&) = delete;
  ~Plumbing() { ::posix_spawn_file_actions_destroy(&actions_); }
  [[nodiscard]] const posix_spawn_file_actions_t* get() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_{};
};

}  // namespace

std::optional<std::vector<std::int16_t>> samples_of_wav(const std::vector<std::uint8_t>& file,
                                                        int rate_hz) {
  if (!says(file, 0, "RIFF") || !says(file, 8, "WAVE")) return std::nullopt;
  const auto form = chunk(file, "fmt ");
  const auto data = chunk(file, "data");
  if (!form || !data || *form + 16 > file.size()) return std::nullopt;
  const auto rate = static_cast<int>(number_at(file, *form + 4, 4));
  if (number_at(file, *form + 2, 2) != 1 || number_at(file, *form + 14, 2) != 16 || rate < 8000 ||
      rate > 192'000)
    return std::nullopt;
  std::vector<std::int16_t> samples;
  for (std::size_t at = *data; at + 2 <= file.size(); at += 2)
    samples.push_back(static_cast<std::int16_t>(number_at(file, at, 2)));
  return at_rate(samples, rate, rate_hz);
}

bool Speech::start(const std::string& words, const Voice& voice, Time now) {
  stop();
  int ends[2] = {-1, -1};
  if (::pipe2(ends, O_CLOEXEC) != 0) return false;
  FileHandle read_end(ends[0]), write_end(ends[1]);
  ::fcntl(read_end.get(), F_SETFL, O_NONBLOCK);
  std::array<std::string, 8> say{
      voice.program, "-v", voice.language, "-s", std::to_string(voice.words_a_minute),
      "--stdout",    "--", words};
  std::array<char*, 9> arguments{};
  for (std::size_t i = 0; i < say.size(); ++i) arguments[i] = say[i].data();
  const Plumbing plumbing(write_end.get());
  pid_t pid = 0;
  if (::posix_spawnp(&pid, voice.program.c_str(), plumbing.get(), nullptr, arguments.data(),
                     environ) != 0)
    return false;
  pid_ = pid, pipe_ = std::move(read_end), since_ = now;
  return true;
}

void Speech::reap(bool kill_it) {
  if (pid_ <= 0) return;
  if (kill_it) ::kill(pid_, SIGKILL);
  while (::waitpid(pid_, nullptr, 0) < 0 && errno == EINTR) {
  }
  pid_ = 0;
  pipe_ = FileHandle();
}

void Speech::stop() {
  reap(true);
  got_.clear();
}

std::optional<std::vector<std::int16_t>> Speech::take(int rate_hz, Time now) {
  if (!working()) return std::nullopt;
  std::array<std::uint8_t, 16384> piece{};
  ssize_t n = 0;
  while ((n = ::read(pipe_.get(), piece.data(), piece.size())) > 0 && got_.size() < kMostBytes)
    got_.insert(got_.end(), piece.begin(), piece.begin() + n);
  const bool more = n < 0 && (errno == EAGAIN || errno == EINTR);
  if (more && now - since_ < kPatience) return std::nullopt;
  reap(n != 0);
  auto samples = samples_of_wav(got_, rate_hz);
  got_.clear();
  return samples.value_or(std::vector<std::int16_t>{});
}

}  // namespace ui
