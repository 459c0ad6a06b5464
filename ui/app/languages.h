// ui/app/languages.h -- which language the program speaks.
#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "engine/language/catalogue.h"
#include "storage/disk/paths.h"

namespace ui {

// Owns the catalogues. When it ends, the program speaks English.
class Languages {
 public:
  // `folder` has a folder for each language but English, which is in the program.
  explicit Languages(std::string folder) : folder_(std::move(folder)) {}
  ~Languages() { engine::speak(nullptr); }
  Languages(const Languages&) = delete;
  Languages& operator=(const Languages&) = delete;

  // `code` as ISO 639-1. On failure the language stays as it was.
  engine::Status speak(const std::string& code);
  // The first of those that the system wants and that is there, else English.
  void speak_as_system(const storage::Environment& environment);

 private:
  std::string folder_;
  std::map<std::string, std::unique_ptr<engine::Catalogue>> catalogues_;
};

}  // namespace ui
