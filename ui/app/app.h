// ui/app/app.h -- farm, journal and screens together: one tap becomes one durable event.
//
// frame() draws the current screen and, when it asks for an event, asks the farm whether that is
// possible, appends it to the journal (durable), and only then lets the farm change; the next frame
// shows it. What could not be saved is said over the screen and nothing has changed.
// Owns the store. No clock: every frame is told what time it is.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "storage/disk/removable_media.h"
#include "storage/journal/look_server.h"
#include "storage/store/kept_setup.h"
#include "storage/store/store.h"
#include "ui/app/beside.h"
#include "ui/app/bundle_job.h"
#include "ui/app/copies.h"
#include "ui/app/exchange_watch.h"
#include "ui/app/places_seen.h"
#include "ui/platform/tones.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/shell/go_to.h"
#include "ui/screens/state/views.h"
#include "ui/screens/walk/now/walk_alarm.h"
#include "ui/screens/walk/now/walk_speech.h"

namespace ui {

struct AppParts {
  std::vector<LabelSeen> labels;
  std::vector<std::string> refused_files{};  // of assets: left out, and why
  std::vector<Theme> themes;  // by name "sun", "dusk", "night"; the built-in ones where missing
  std::optional<engine::Theme> theme;  // overrules the setup
  std::function<engine::UuidBytes(std::int64_t unix_ms)> new_id;
  std::string store_path;
  std::string log_folder;  // a folder on the tablet that bundles may go to
  std::vector<engine::MethodRules> methods{};
};

// What bundles or a copy brought, before it is merged.
struct Gathered {
  TakenIn seen;
  std::vector<storage::Sealed> events{};
  std::vector<storage::Signature> signatures{};
};

// One frame's surroundings.
struct FrameAt {
  float width = 0, height = 0, px_per_mm = 0;
  Fonts fonts;
  engine::Stamp now;
  std::int64_t touch_ms = 0;                        // for taps and holds; monotonic
  std::optional<std::int64_t> touch_earliest_ms{};  // of the press or lift, where it is not known
};

class App {
 public:
  App(storage::Store store, AppParts parts);

  // To be called once in each Dear ImGui frame.
  void frame(const FrameAt& at);

  // The frame built last is on the screen from then on, by the clock of touch_ms.
  void shown(std::int64_t at_ms) { touch_.shown(at_ms); }

  // What a keyboard, or a scanner that acts as one, typed: a line that is a hive tag leads to its
  // colony, whatever the screen; anything else is left alone.
  void typed(const std::string& text);

  void set_sticks(std::vector<storage::Stick> sticks);
  // The tone is wanted now.
  [[nodiscard]] bool alarm_wanted(const engine::Stamp& now);
  // Which of the tones is wanted now; the same question as alarm_wanted, asked once.
  [[nodiscard]] std::optional<Tone> tone_wanted(const engine::Stamp& now);
  // What is to be said aloud now; empty: nothing, or the keeper wants silence.
  [[nodiscard]] std::string speech_wanted(const engine::Stamp& now);
  // When the screen must be drawn again if nothing happens; at most a second.
  [[nodiscard]] std::optional<engine::Ms> next_frame_in(const engine::Stamp& now) const;
  [[nodiscard]] Colour background() const { return current_theme()[Surface::Page].ground; }

  [[nodiscard]] const Touch& touch() const { return touch_; }
  [[nodiscard]] const engine::Farm& farm() const { return store_.farm(); }
  [[nodiscard]] const storage::Store& store() const { return store_; }
  // From now on other programs may look at the store while it is open here; the descriptor that is
  // readable when one asks, or -1. And what is to be done for them, in each turn.
  [[nodiscard]] int listen();
  void answer_looks() { looks_.turn(store_.journal()); }
  // Waits until what is written or read beside the screens is done; for scripts. The next frame
  // shows it.
  void finish_jobs();

 private:
  // What a Look shows and nobody else keeps; lasts until the next frame.
  struct Shown {
    BundleSeen bundle;
    std::vector<Trouble> troubles;
  };
  void refresh_shown(const engine::Stamp& now);
  void refresh_trust();
  [[nodiscard]] Look look(const engine::Stamp& now) const;
  [[nodiscard]] const Theme& current_theme() const;
  [[nodiscard]] std::vector<Trouble> troubles(const engine::Stamp& now) const;
  [[nodiscard]] std::string contradictions_line() const;
  [[nodiscard]] std::string offers_line() const;
  [[nodiscard]] std::string clock_line(const engine::Stamp& now) const;
  [[nodiscard]] std::string contradicted_line(const engine::Stamp& now) const;
  void draw_problem();
  void keep_setup(const engine::Stamp& now);
  void carry_out(const Ask& ask, const engine::Stamp& now);
  // One for each kind of ask; a new kind does not compile until it has its own.
  void carry(const std::monostate&, const engine::Stamp&) {}
  void carry(const engine::Body& body, const engine::Stamp& now);
  void carry(const Entries& wanted, const engine::Stamp& now);
  void carry(const WriteBundle& wanted, const engine::Stamp& now);
  void carry(const ReleaseStick& wanted, const engine::Stamp&) { job_.release(wanted.path); }
  void carry(const TakeIn& wanted, const engine::Stamp&);
  void carry(const TakeInCopy& wanted, const engine::Stamp&);
  void carry(const WritePaper& wanted, const engine::Stamp& now);
  void carry(const CopyStore& wanted, const engine::Stamp& now);
  void carry(const MendStore&, const engine::Stamp& now);
  void carry(const UseExchange& wanted, const engine::Stamp&);
  void carry(const LookIntoExchange&, const engine::Stamp&) { exchange_.look_now(); }
  void carry(const ShowWords&, const engine::Stamp& now);
  void carry(const PairWith& wanted, const engine::Stamp& now);
  void carry(const GoTo& way, const engine::Stamp&) { go_to(way, views_); }
  void finish_taking_in();
  [[nodiscard]] engine::Result<CopyPlace> copy_place(const CopyStore& wanted) const;
  void go_on_copying();
  void let_go_of_copy();
  void open_where_it_goes_on();
  void look_at_places();
  void show_places();
  void fetch_what_was_read();
  [[nodiscard]] bool waits_for_readers() const;
  [[nodiscard]] std::string file_name(const WritePaper& wanted) const;
  void scan(const std::string& line);
  [[nodiscard]] engine::Result<storage::BagRequest> request_for(const WriteBundle& wanted) const;

  storage::Store store_;
  AppParts parts_;
  Theme sun_, dusk_, night_;
  engine::Theme theme_ = engine::Theme::Sun;  // as of the last frame; never BySun
  Touch touch_;
  Views views_;
  BundleJob job_;
  Copies copies_;
  bool letting_go_ = false;  // of the stick that the copy is on
  ExchangeWatch exchange_;
  storage::LookServer looks_;
  Beside<Gathered> reading_;
  Beside<engine::Result<std::string>> paper_;  // the name of the PDF that was written
  PlacesSeen places_;
  std::vector<storage::Stick> sticks_;
  std::vector<StickSeen> sticks_seen_;
  Shown shown_;
  AlarmMemory alarm_;
  SpeechMemory speech_;
  Answers answers_;
  engine::LogIndex book_;
  TakenIn taken_in_;
  TrustSeen trust_;
  std::optional<std::string> trust_at_;           // what it was made of
  std::string scanned_code_;                      // of another tablet, until the next frame
  std::optional<storage::KeptSetup> kept_setup_;  // as of the last frame
  std::string paper_line_;
  std::string typed_;          // by a scanner, up to its Return
  std::string problem_;        // shown over the screen until it is read
  std::string problem_title_;  // "Not saved" where empty
};

}  // namespace ui
