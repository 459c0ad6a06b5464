// ui/screens/base/ask.h -- what a screen may ask for. A closed list: the app visits it without a
// catch-all, so that a new kind of ask does not compile until somebody carries it out.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/events/event.h"
#include "engine/register/register.h"
#include "ui/screens/base/go_to.h"

namespace ui {

// Writes the log of one day, or of all days, into a folder as a bundle.
struct WriteBundle {
  std::string folder;
  std::optional<engine::Date> day;
  bool stick = false;  // only if a stick is still there
};
// Makes it safe to pull the stick.
struct ReleaseStick {
  std::string path;
};

// Several entries in one act: all are written, or none.
struct Entries {
  std::vector<engine::Body> bodies;
};
// Takes in the bundles of other tablets found below a folder.
struct TakeIn {
  std::string folder;
};

// Writes a PDF into a folder: the hive tags of the query's yard, or its register.
struct WritePaper {
  enum class What { Tags, Register } what = What::Tags;
  std::string folder;
  engine::RegisterQuery query;
};

// Makes a whole copy of the store.
struct CopyStore {
  std::string folder;
  bool stick = false;  // only if a stick is still there
};
// Takes in every entry of a copy.
struct TakeInCopy {
  std::string path;
};
// Goes on with what can be read of a damaged store.
struct MendStore {};
// Watches another exchange folder, or none; or looks into it now.
struct UseExchange {
  std::string folder;
};
struct LookIntoExchange {};
// Makes this tablet's key, so that its words can be shown.
struct ShowWords {};
// Pairs with the tablet whose eight words, or whose scanned code, this is.
struct PairWith {
  std::string typed;
};

// Nothing, an entry for the journal, something outside of it, or the way to another screen.
using Ask = std::variant<std::monostate, engine::Body, WriteBundle, ReleaseStick, Entries, TakeIn,
                         WritePaper, CopyStore, TakeInCopy, MendStore, UseExchange,
                         LookIntoExchange, ShowWords, PairWith, GoTo>;

}  // namespace ui
