// ui/screens/base/screen.h -- what every screen is given.
//
// A screen is a function of a const Look, its own view state (which page, which colony is chosen,
// what is half typed) and the Touch it draws on. It changes nothing but that state, and returns at
// most one Ask: an entry for the journal, something outside, or the way to another screen. The app
// carries it out between frames; the screen sees the result in the next Look.
#pragma once
#include <string>
#include <vector>

#include "engine/farm/queries.h"
#include "engine/method/method.h"
#include "engine/register/log_index.h"
#include "ui/screens/base/ask.h"
#include "ui/screens/base/seen.h"
#include "ui/touch/widgets.h"

namespace ui {

struct Answers;

// One frame's view of everything; it owns nothing and lasts as long as the frame.
struct Look {
  const engine::Farm& farm;
  const engine::DeviceId device;
  const engine::Stamp& now;
  const engine::UuidBytes fresh_id;  // for one new thing; another one in the next frame
  const Answers& answers;            // what the engine says of the farm, worked out once
  const engine::LogIndex& book;      // of `farm`; read a piece a frame, see whole()

  const std::vector<LabelSeen>& labels;
  const std::vector<engine::MethodRules>& methods;  // every way to treat, and its rules
  const std::vector<std::string>& refused_files;    // files of assets that were left out, and why
  const std::string& store_path;
  const std::string& log_folder;  // a folder on the tablet itself that bundles may go to
  const std::vector<StickSeen>& sticks;
  const BundleSeen& bundle;
  const TakenIn& taken_in;
  const CopiesSeen& copies;
  const ExchangeSeen& exchange;
  const TrustSeen& trust;
  const std::vector<Trouble>& troubles;  // the gravest first; mostly empty
  const std::string& paper_line;         // what came of the last PDF asked for; empty: none was
  const bool mendable;  // the store is damaged, and what can be read of it may go on

  [[nodiscard]] engine::Date today() const { return engine::local_date(now); }
};

// Where a PDF goes: the first stick that can be written, else the tablet's own folder; and how that
// is called. Empty: nowhere.
[[nodiscard]] std::string paper_folder(const Look& look);
[[nodiscard]] std::string paper_place(const Look& look);

// Whether the farm would take the body now from this device; for greying buttons.
[[nodiscard]] engine::Refusal why_not(const Look& look, const engine::Body& body);

}  // namespace ui
