// ui/commands/player.h -- carries out the steps of a play script on the real screens.
//
// The clock is virtual: it stands still but for `wait`; `at` sets only the wall clock, as a keeper
// or a lost battery would, and leaves the boot clock running on. Each tap takes its own time on the
// touch clock alone, so that the guard against glove bounce never hits a script.
//
// `tap` is a short press: on a target that wants to be held it does nothing. `hold` presses for the
// full time and lifts: on a target that wants a tap it acts like one. A stick's folder is relative
// to the current directory and is made when it is missing; the screens take it for a real stick.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "ui/app/stage.h"
#include "ui/commands/play_script.h"

namespace ui {

struct PlayClock {
  engine::Stamp now;
  std::int64_t touch_ms = 0;
};

// Makes the app anew on the same store: at the start and after a crash.
using MakeApp = std::function<engine::Result<std::unique_ptr<App>>()>;
// `duskwalk read FILE` under the script's clock, on a store that nobody has open.
using ReadSheet = std::function<engine::Status(const std::string& file, const engine::Stamp& now)>;

class Player {
 public:
  Player(MakeApp make_app, ReadSheet read_sheet, std::string out_folder, PlayClock clock)
      : make_app_(std::move(make_app)),
        read_sheet_(std::move(read_sheet)),
        out_(std::move(out_folder)),
        clock_(std::move(clock)) {}

  // Anything but Crash. Failed: what did not hold, without the line.
  engine::Status play(const PlayStep& step);
  [[nodiscard]] const PlayClock& clock() const { return clock_; }
  // The screen and the stick in force, for the one who goes on after a crash.
  [[nodiscard]] PlayStep screen_step() const { return screen_; }
  void set_screen(const PlayStep& screen) { screen_ = screen; }
  void set_stick_folder(std::optional<std::string> folder) { stick_folder_ = std::move(folder); }

 private:
  engine::Status ready();
  void show();
  void listen();
  engine::Status wait(engine::Ms length);
  engine::Status touch(const std::string& label, bool hold);
  engine::Status save_targets(const std::string& name);
  engine::Status plug();
  engine::Status read(const std::string& file);
  engine::Status scan(const std::string& words);
  [[nodiscard]] bool sees(const std::string& words) const;

  MakeApp make_app_;
  ReadSheet read_sheet_;
  std::string out_;
  PlayClock clock_;
  PlayStep screen_{0, PlayAct::Screen, {}, {}, {}, 1280, 800, 10.1F};
  std::optional<std::string> stick_folder_;
  std::string heard_;  // since the last `hear`, a line each
  int tones_ = 0;      // how often the alarm was wanted since this life began
  std::unique_ptr<Stage> stage_;
  std::unique_ptr<App> app_;
};

// The one enabled target a label means: an exact match, else the only one that contains it.
[[nodiscard]] engine::Result<Target> target_called(const std::vector<Target>& targets,
                                                   const std::string& label);

}  // namespace ui
