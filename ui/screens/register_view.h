#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/event.h"
#include "ui/screens/typing.h"

namespace ui {

// Where the log goes. Known by its path, so that it never slides to another place when a stick is
// pulled.
struct LogPlace {
  enum class Kind { None, Stick, Tablet, Hand } kind = Kind::None;
  std::string path;     // of the stick
  bool tapped = false;  // chosen by the keeper; else the best there is
};

struct RegisterView {
  int page = 0;
  std::optional<engine::Date> day;        // none: today, or the last that has entries
  std::optional<engine::EntryRef> entry;  // the one whose page is open
  int reason_page = 0;
  std::vector<std::string> said;  // reasons for striking
  std::string own_words;
  Typing typing;

  bool writing = false;  // the page that writes the log is open
  LogPlace place;
  int place_page = 0;
  bool all_days = false;
  std::string folder;
};

}  // namespace ui
