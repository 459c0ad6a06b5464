#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/event.h"
#include "ui/screens/typing.h"

namespace ui {

struct RegisterView {
  int page = 0;
  std::optional<engine::Date> day;        // none: the newest that has entries
  std::optional<engine::EntryRef> entry;  // the one whose page is open
  int reason_page = 0;
  std::vector<std::string> said;  // reasons for striking
  std::string own_words;
  Typing typing;

  bool writing = false;  // the page that writes the log is open
  int place = 0;         // which stick; one past the last: the folder written by hand
  int place_page = 0;
  bool all_days = false;
  std::string folder;
};

}  // namespace ui
