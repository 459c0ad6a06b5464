#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/events/event.h"
#include "engine/register/search.h"
#include "engine/words/contradictions.h"
#include "ui/screens/base/form_state.h"
#include "ui/screens/base/tried.h"
#include "ui/screens/base/typing.h"

namespace ui {

// Where the log goes. Known by its path, so that it never slides to another place when a stick is
// pulled.
struct LogPlace {
  enum class Kind { None, Stick, Tablet, Hand } kind = Kind::None;
  std::string path;     // of the stick
  bool tapped = false;  // chosen by the keeper; else the best there is
};

enum class BookPage { Day, Find, Lots, LotColonies, Late, Tablets };

// What was looked for last: looking through the whole register takes longer than a frame.
struct FoundRows {
  std::size_t entries = 0;  // that the book had read
  engine::Search search;
  std::vector<engine::ColonyId> given;  // to these, by yard and name; empty until all is looked at
};

struct FindView {
  enum class Choosing { None, Yard, Colony, Period, Lot } choosing = Choosing::None;
  engine::RegisterQuery query;
  int page = 0, list_page = 0;
  FormView period;
  std::optional<FoundRows> found;
  std::optional<std::size_t> lots_at;  // entries that the book had read
  std::vector<engine::LotWanted> lots;
};

// An entry being corrected: its words as they should have been, and why.
struct CorrectView {
  engine::EntryRef entry;
  engine::ReplacementBody body;
  std::size_t reason = 0;
  std::string own_words;
  FormView form;
  TriedOnce tried;
};

// Vapor or a passing over that is entered afterwards, for one or several colonies of a yard.
struct LateView {
  std::optional<engine::YardId> yard;
  engine::EnteredLate draft;
  std::vector<engine::ColonyId> colonies;
  bool own_dose = false;  // typed; else what the label prompts for each colony's boxes
  bool choosing = false;  // the list of colonies is open
  int page = 0;
  FormView form;
};

struct TabletsView {
  int page = 0;
  std::string folder;
  Typing typing;
  std::optional<std::vector<engine::EntryRef>> open;  // the sides of the contradiction shown
  bool join = false;                                  // the page on which the two of it are joined
  std::optional<engine::EntryRef> offer;              // of another tablet's setup; its page is open
  int side_page = 0;
  std::vector<std::size_t> to_strike;  // of a fork: entries of each side
  std::vector<std::string> said;
  std::string own_words;
  bool report = false;    // what came of the last taking in is shown
  bool exchange = false;  // the page of the exchange folder is open
  bool pairing = false;   // the page of words and code
  std::string held;       // the tablet whose held entries are shown; empty: none
};

struct RegisterView {
  int page = 0;
  std::optional<engine::Date> day;        // none: today, or the last that has entries
  std::optional<engine::EntryRef> entry;  // the one whose page is open
  int reason_page = 0;
  TriedOnce tried;                // the strike of that entry, or its taking back
  std::vector<std::string> said;  // reasons for striking
  std::string own_words;
  Typing typing;

  BookPage page_of = BookPage::Day;
  FindView find;
  std::optional<CorrectView> correct;
  LateView late;
  TabletsView tablets;

  bool writing = false;  // the page that writes the log is open
  LogPlace place;
  int place_page = 0;
  bool all_days = false;
  std::string folder;
};

// Opens the page of an entry.
inline void open_entry(RegisterView& v, const engine::EntryRef& entry) {
  v.entry = entry;
  v.said.clear();
  v.own_words.clear();
  v.reason_page = 0;
}

}  // namespace ui
