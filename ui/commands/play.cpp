// A crash in a script is a real one: the script is played by a child process, which at `crash`
// kills itself with SIGKILL; a new child goes on from there on the same store.
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <filesystem>

#include "storage/disk/random.h"
#include "storage/disk/whole_file.h"
#include "ui/app/app_assets.h"
#include "ui/commands/commands.h"
#include "ui/commands/player.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

constexpr std::size_t kMostScriptBytes = 4 << 20;
constexpr char kStart[] = "2026-01-01T12:00:00+00:00";  // until the script says `at`

// What one child hands to the next.
struct Baton {
  std::size_t next_step = 0;
  std::int64_t at_ms = 0, zone_min = 0, boot_ms = 0, touch_ms = 0;
  int width = 0, height = 0;
  float inches = 0;
  unsigned lives = 0;  // children so far: each makes other ids
  std::int64_t boot = 0;
};

struct Play {
  PlayCall call;
  const Surroundings& around;
  std::vector<PlayStep> steps;
  std::string store;
};

PlayClock clock_of(const Baton& b) {
  return {engine::Stamp{engine::Utc{engine::Ms{b.at_ms}}, std::chrono::minutes{b.zone_min},
                        fmt::format("play-{}", b.boot), engine::Ms{b.boot_ms}},
          b.touch_ms};
}

Baton baton_of(const Player& player, std::size_t next_step, const Baton& before) {
  const PlayClock& c = player.clock();
  const PlayStep screen = player.screen_step();
  Baton next = before;
  next.next_step = next_step;
  next.at_ms = c.now.at.time_since_epoch().count();
  next.zone_min = c.now.zone.count();
  next.boot_ms = c.now.since_boot.count();
  next.touch_ms = c.touch_ms;
  next.width = screen.width, next.height = screen.height, next.inches = screen.inches;
  ++next.lives;
  return next;
}

engine::Result<std::unique_ptr<App>> make_app(const Play& play, const Baton& baton,
                                              const std::shared_ptr<storage::IdMaker>& ids) {
  auto assets = load_assets(play.around.assets, play.around.environment);
  if (!assets.ok()) return assets.status();
  storage::JournalOptions options;
  options.device = engine::uuid_text((*ids)(baton.at_ms));
  auto store = storage::Store::open(play.store, options);
  if (!store.ok()) return store.status();
  AppParts parts;
  parts.labels = std::move(assets.value().labels);
  parts.themes = std::move(assets.value().themes);
  parts.refused_files = std::move(assets.value().refused);
  parts.methods = std::move(assets.value().methods);
  parts.new_id = [ids](std::int64_t ms) { return (*ids)(ms); };
  parts.store_path = play.store;
  parts.log_folder = play.call.out + "/logs";
  return std::make_unique<App>(std::move(store).value(), std::move(parts));
}

// Sheets lie beside the script, wherever it is played from.
engine::Status read_sheet(const Play& play, const std::string& file, const engine::Stamp& now,
                          const std::shared_ptr<storage::IdMaker>& ids) {
  Surroundings then = play.around;
  then.now = [now] { return now; };
  then.new_id = [ids](std::int64_t ms) { return (*ids)(ms); };
  ReadCall call;
  call.store = play.store;
  call.file = (std::filesystem::path(play.call.script).parent_path() / file).string();
  const int code = read_command(call, then);
  std::fflush(stdout);  // a crash to come must not take the words along
  if (code == 0) return {};
  return {engine::Code::Failed, file + " was not read"};
}

// The life of one child; returns its exit code, or does not return (crash).
int live(const Play& play, const Baton& baton, int pipe_fd) {
  const auto ids = std::make_shared<storage::IdMaker>(baton.lives + 1);
  Player player([&] { return make_app(play, baton, ids); },
                [&](const std::string& file, const engine::Stamp& now) {
                  return read_sheet(play, file, now, ids);
                },
                play.call.out, clock_of(baton));
  player.set_screen(
      PlayStep{0, PlayAct::Screen, {}, {}, {}, baton.width, baton.height, baton.inches});
  player.set_stick_folder(stick_before(play.steps, baton.next_step));
  for (std::size_t i = baton.next_step; i < play.steps.size(); ++i) {
    if (play.steps[i].act == PlayAct::Crash) {
      const Baton next = baton_of(player, i + 1, baton);
      if (::write(pipe_fd, &next, sizeof next) == sizeof next) ::raise(SIGKILL);
      return say_failure(engine::Code::Failed, "crash: the next life cannot be told");
    }
    if (play.around.stopped()) return say_failure(engine::Code::Failed, "stopped: not played on");
    const engine::Status held = player.play(play.steps[i]);
    if (!held.ok())
      return say_failure(engine::Code::Failed, fmt::format("{}: line {}: {}", play.call.script,
                                                           play.steps[i].line, held.message()));
  }
  return 0;
}

// A call that a signal may break off; whoever asks us to end asks the child too.
template <class Call>
auto whole_call(pid_t child, Call call) {
  for (;;) {
    const auto result = call();
    if (result >= 0 || errno != EINTR) return result;
    if (child > 0) ::kill(child, SIGTERM);
  }
}

// Runs one child to its end. True: it crashed as scripted and `baton` is for the next one.
bool run_child(const Play& play, Baton& baton, int& code) {
  int fds[2];
  std::fflush(nullptr);
  if (::pipe(fds) != 0) return code = say_failure(engine::Code::Failed, "no pipe to be had"), false;
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(fds[0]);
    const int result = live(play, baton, fds[1]);
    std::fflush(nullptr);
    std::_Exit(result);
  }
  ::close(fds[1]);
  Baton next;
  const bool crashed = child > 0 && whole_call(child, [&] {
                                      return ::read(fds[0], &next, sizeof next);
                                    }) == sizeof next;
  ::close(fds[0]);
  int status = 0;
  if (child < 0 || whole_call(child, [&] { return ::waitpid(child, &status, 0); }) < 0)
    return code = say_failure(engine::Code::Failed, "no process to be had"), false;
  if (crashed) return baton = next, true;
  code = WIFEXITED(status) ? WEXITSTATUS(status)
                           : say_failure(engine::Code::Failed, "the program ended by itself");
  return false;
}

// Never the keeper's own store unless it is named: a script must not write into real records.
std::string store_for(const PlayCall& call, const Surroundings& around) {
  if (!call.store.empty() || around.environment.contains("DUSKWALK_STORE"))
    return storage::store_path(call.store, around.environment).value();
  const std::string own = call.out + "/play.journal";
  for (const char* part : {"", "-wal", "-shm", ".tip", ".ballast"}) {
    std::error_code ignored;
    std::filesystem::remove(own + part, ignored);
  }
  return own;
}

// Each play is a boot of its own, a minute old: the boot clock starts anew, and timers of an
// earlier play on the same store go by the wall clock. WindowEvents from the store, so that the
// same play gives the same boot.
std::int64_t boot_of(const std::string& store) {
  storage::JournalOptions options;
  options.create = false;
  const auto journal = storage::Journal::open(store, options);
  return journal.ok() ? journal.value().size() : 0;
}

Baton first_baton(const std::string& store) {
  Baton baton;
  baton.boot = boot_of(store);
  baton.at_ms = engine::stamp_from_rfc3339(kStart)->at.time_since_epoch().count();
  baton.boot_ms = baton.touch_ms = 60'000;
  baton.width = 1280, baton.height = 800, baton.inches = 10.1F;
  return baton;
}

}  // namespace

int play_command(const PlayCall& call, const Surroundings& around) {
  const auto text = storage::read_whole_file(call.script, kMostScriptBytes);
  if (!text.ok()) return say_failure(text.status());
  auto steps = read_play_script(text.value());
  if (!steps.ok())
    return say_failure(steps.status().code(), call.script + ": " + steps.status().message());
  std::error_code error;
  std::filesystem::create_directories(call.out, error);
  if (error)
    return say_failure(engine::Code::Failed, "--out: " + call.out + ": " + error.message());
  const Play play{call, around, std::move(steps).value(), store_for(call, around)};
  Baton baton = first_baton(play.store);
  int code = 0;
  while (run_child(play, baton, code)) {
  }
  if (code == 0) say("{} steps played, pictures in {}\n", play.steps.size(), call.out);
  return code;
}

}  // namespace ui
