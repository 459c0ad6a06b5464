// The only place with the real clock, the real randomness and the real environment.
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <memory>

#include "storage/disk/random.h"
#include "storage/disk/system_zone.h"
#include "ui/commands/commands.h"
#include "ui/commands/stop_signals.h"

extern char** environ;

namespace {

std::string boot_id() {
  std::string id;
  std::ifstream("/proc/sys/kernel/random/boot_id") >> id;
  return id;
}

engine::Ms clock_ms(clockid_t clock) {
  std::timespec t{};
  clock_gettime(clock, &t);
  return engine::Ms{t.tv_sec * 1000 + t.tv_nsec / 1'000'000};
}

// In milliseconds all the way: nanoseconds end in the year 2262.
engine::Stamp stamp(const std::string& boot, storage::SystemZone& zone) {
  const engine::Utc at{clock_ms(CLOCK_REALTIME)};
  const engine::Ms since_boot = clock_ms(CLOCK_BOOTTIME);
  return {at, zone.offset(std::chrono::floor<std::chrono::seconds>(at), since_boot), boot,
          since_boot};
}

storage::Environment environment() {
  storage::Environment all;
  for (char** line = environ; *line != nullptr; ++line) {
    const std::string text = *line;
    const std::size_t equals = text.find('=');
    if (equals != std::string::npos) all[text.substr(0, equals)] = text.substr(equals + 1);
  }
  return all;
}

// By environment, else as installed beside the program; a build folder has a link there.
std::string assets_folder(const storage::Environment& env) {
  if (const auto chosen = env.find("DUSKWALK_ASSETS"); chosen != env.end()) return chosen->second;
  std::error_code error;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
  return program.parent_path().parent_path() / "share" / "duskwalk";
}

}  // namespace

int main(int argc, char** argv) {
  const ui::StopSignals stop;
  ui::Surroundings around;
  around.stopped = [&stop] { return stop.came(); };
  around.stop_fd = stop.fd();
  around.new_id = storage::new_uuid;
  around.environment = environment();
  const auto chosen = around.environment.find("TZ");
  const std::string tz = chosen == around.environment.end() ? "" : chosen->second;
  const auto zone = std::make_shared<storage::SystemZone>("/etc/localtime", tz);
  around.now = [boot = boot_id(), zone] { return stamp(boot, *zone); };
  around.assets = assets_folder(around.environment);
  around.translations = std::filesystem::path(around.assets).parent_path() / "locale";
  return ui::run_program(argc, argv, around);
}
