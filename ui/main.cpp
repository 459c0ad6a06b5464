// The only place with the real clock, the real randomness and the real environment.
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>

#include "storage/disk/random.h"
#include "ui/commands/commands.h"

extern char** environ;

namespace {

std::string boot_id() {
  std::string id;
  std::ifstream("/proc/sys/kernel/random/boot_id") >> id;
  return id;
}

std::chrono::minutes zone_at(std::time_t t) {
  std::tm local{};
  localtime_r(&t, &local);
  return std::chrono::minutes{local.tm_gmtoff / 60};
}

engine::Stamp stamp(const std::string& boot) {
  const auto at = std::chrono::floor<engine::Ms>(std::chrono::system_clock::now());
  std::timespec since{};
  clock_gettime(CLOCK_BOOTTIME, &since);
  return {at, zone_at(std::chrono::system_clock::to_time_t(at)), boot,
          engine::Ms{since.tv_sec * 1000 + since.tv_nsec / 1'000'000}};
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

// By environment, else as installed beside the program, else as in the source tree.
std::string assets_folder(const storage::Environment& env) {
  if (const auto chosen = env.find("DUSKWALK_ASSETS"); chosen != env.end()) return chosen->second;
  std::error_code error;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
  const auto installed = program.parent_path().parent_path() / "share" / "duskwalk";
  if (!error && std::filesystem::is_directory(installed / "labels", error)) return installed;
  return DUSKWALK_SOURCE_ASSETS;
}

}  // namespace

int main(int argc, char** argv) {
  ui::Surroundings around;
  around.now = [boot = boot_id()] { return stamp(boot); };
  around.new_id = storage::new_uuid;
  around.environment = environment();
  around.assets = assets_folder(around.environment);
  return ui::run_program(argc, argv, around);
}
