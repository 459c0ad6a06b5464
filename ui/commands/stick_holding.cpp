#include "ui/commands/stick_holding.h"

#include <filesystem>

namespace ui {

std::optional<storage::Stick> stick_holding(const std::string& folder,
                                            const std::vector<storage::Stick>& sticks) {
  std::error_code error;
  const std::filesystem::path whole = std::filesystem::absolute(folder, error);
  const std::filesystem::path real = std::filesystem::weakly_canonical(whole, error);
  const std::string path = error ? folder : real.string();
  const storage::Stick* holding = nullptr;
  for (const storage::Stick& stick : sticks) {
    const bool on_it = path == stick.path || path.starts_with(stick.path + "/");
    if (on_it && (holding == nullptr || stick.path.size() > holding->path.size())) holding = &stick;
  }
  return holding == nullptr ? std::nullopt : std::optional(*holding);
}

}  // namespace ui
