#include "ui/app/languages.h"

#include "storage/language/mo_catalogue.h"
#include "storage/language/system_language.h"

namespace ui {

engine::Status Languages::speak(const std::string& code) {
  if (code == "en") return engine::speak(nullptr), engine::Status{};
  auto& catalogue = catalogues_[code];
  if (!catalogue) {
    auto read = storage::read_catalogue(folder_, code);
    if (!read.ok()) return read.status();
    catalogue = std::move(read).value();
  }
  engine::speak(catalogue.get());
  return {};
}

void Languages::speak_as_system(const storage::Environment& environment) {
  for (const std::string& code : storage::wanted_languages(environment))
    if (speak(code).ok()) return;
  engine::speak(nullptr);
}

}  // namespace ui
