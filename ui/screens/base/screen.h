// ui/screens/base/screen.h -- what every screen is given and what it may ask for.
//
// A screen is a function of a const Look, the Views (small view state: which page, which colony is
// chosen, what is half typed) and the Touch it draws on. It changes nothing but Views, and returns
// at most one Ask: an event for the journal, or something outside. The app carries it out between
// frames; the screen sees the result in the next Look.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/farm/queries.h"
#include "engine/guide/guide.h"
#include "engine/learn/learned.h"
#include "engine/method/method.h"
#include "engine/register/register.h"
#include "ui/touch/widgets.h"

namespace ui {

enum class ScreenName { Today, Yards, Walk, Counts, Courses, Kit, Register, Setup };

// A label profile as it came from its file.
struct LabelSeen {
  std::string id;
  std::string region;
  std::string name;
  std::string source;
  std::string checked;  // the day somebody last held it against its source
  std::string check_your_label;
  std::vector<std::string> cautions;
  engine::LabelRules rules;
};

// A place a bundle can be written to: a stick, or a folder chosen by hand.
struct StickSeen {
  std::string name;  // "KEEPER STICK"
  std::string path;
  bool read_only = false;
  std::optional<std::uint64_t> free_bytes;
};

// The last bundle asked for.
struct BundleSeen {
  // Safe: whole on a stick that may be pulled (with no line: only let go of). Written: whole in a
  // folder. Held: on a stick that must not be pulled yet.
  enum class State { None, Writing, Safe, Written, Held, Failed } state = State::None;
  std::string line;                      // what to tell the keeper
  float part = 0;                        // 0 to 1 while writing
  std::string folder{};                  // where to; empty: said beside any place
  std::optional<std::size_t> entries{};  // that the log had then
};

// What came of the last bundles that were taken in.
struct TakenIn {
  std::string folder;   // empty: nothing was taken in since the program began
  bool failed = false;  // then `lines` says why, and nothing has changed
  std::size_t bundles = 0, whole = 0;
  std::int64_t added = 0, known = 0;  // entries
  std::vector<std::string> lines;     // what was left out and why, gaps, broken chains, forks
  bool copy = false;                  // of the store, not bundles; `folder` is then its file
  bool reading = false;               // nothing has come of it yet
};

// A whole copy of the store that lies on a stick or in the tablet's own folder.
struct CopyFound {
  std::string name, path;
  std::string where;  // the stick's name, or "this tablet"
  std::uint64_t bytes = 0;
};
// The last copy asked for, and those that are there.
struct CopiesSeen {
  enum class State { None, Copying, Done, Failed } state = State::None;
  std::string line;                // what to tell the keeper
  float part = 0;                  // 0 to 1 while copying
  std::string name{};              // of the file
  std::vector<CopyFound> found{};  // newest first
};

// The folder through which tablets and an office meet.
struct ExchangeSeen {
  std::string folder;  // empty: none is watched
  bool failed = false;
  std::string when{};                // clock time of the last pass; empty: none yet
  std::vector<std::string> lines{};  // what came of it
};

struct Look {
  const engine::Farm& farm;
  engine::DeviceId device;
  engine::Stamp now;
  std::vector<LabelSeen> labels;
  std::vector<StickSeen> sticks;
  BundleSeen bundle;
  std::vector<std::string> refused_files{};  // files of assets that were left out, and why
  std::string journal_line;  // trouble with the journal (damaged, disk nearly full); mostly empty
  std::string store_path;
  std::string log_folder;                  // a folder on the tablet itself that bundles may go to
  engine::UuidBytes fresh_id;              // for one new thing; another one in the next frame
  engine::LearnedOnce* learned = nullptr;  // asked by learned(), so that only who asks pays for it
  std::vector<engine::MethodRules> methods{};  // every way to treat, and its rules
  engine::Guide* guide = nullptr;              // asked by lead()
  const engine::LogIndex* book = nullptr;      // of `farm`; read a piece a frame, see whole()
  TakenIn taken_in{};
  CopiesSeen copies{};
  ExchangeSeen exchange{};
  bool mendable = false;     // the store is damaged, and what can be read of it may go on
  std::string paper_line{};  // what came of the last PDF asked for; empty: none was
  [[nodiscard]] engine::Date today() const { return engine::local_date(now); }
};

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

using Ask =
    std::variant<std::monostate, engine::Body, WriteBundle, ReleaseStick, Entries, TakeIn,
                 WritePaper, CopyStore, TakeInCopy, MendStore, UseExchange, LookIntoExchange>;

// What was learned of dwells and charges; common practice alone where the Look brings nothing.
[[nodiscard]] const engine::Learned& learned(const Look& look);

// The plan that leads this device's walk under way; nullptr: there is none, the walk's own order
// serves.
[[nodiscard]] const engine::Lead* lead(const Look& look, const engine::Walk& walk);

// Where a PDF goes: the first stick that can be written, else the tablet's own folder; and how that
// is called. Empty: nowhere.
[[nodiscard]] std::string paper_folder(const Look& look);
[[nodiscard]] std::string paper_place(const Look& look);

// Whether the farm would take the body now from this device; for greying buttons.
[[nodiscard]] engine::Refusal why_not(const Look& look, const engine::Body& body);

}  // namespace ui
