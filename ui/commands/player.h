// ui/commands/player.h -- carries out the steps of a play script on the real screens.
//
// The clock is virtual: it stands still but for `wait`; `at` sets only the wall clock, as a keeper
// or a lost battery would, and leaves the boot clock running on. Each tap takes its own time on the
// touch clock alone, so that the guard against glove bounce never hits a script.
#pragma once
#include <functional>
#include <memory>
#include <string>

#include "ui/commands/play_script.h"
#include "ui/stage.h"

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
  // The screen in force, for the one who goes on after a crash.
  [[nodiscard]] PlayStep screen_step() const { return screen_; }
  void set_screen(const PlayStep& screen) { screen_ = screen; }

 private:
  engine::Status ready();
  void show();
  engine::Status wait(engine::Ms length);
  engine::Status touch(const std::string& label, bool hold);
  engine::Status save_targets(const std::string& name);
  engine::Status stick_in(const std::string& folder);
  engine::Status read(const std::string& file);
  [[nodiscard]] bool sees(const std::string& words) const;

  MakeApp make_app_;
  ReadSheet read_sheet_;
  std::string out_;
  PlayClock clock_;
  PlayStep screen_{0, PlayAct::Screen, {}, {}, {}, 1280, 800, 10.1F};
  std::unique_ptr<Stage> stage_;
  std::unique_ptr<App> app_;
};

// The one enabled target a label means: an exact match, else the only one that contains it.
[[nodiscard]] engine::Result<Target> target_called(const std::vector<Target>& targets,
                                                   const std::string& label);

}  // namespace ui
