#include <poll.h>

#include <algorithm>
#include <chrono>

#include "engine/language/tr.h"
#include "storage/disk/removable_media.h"
#include "storage/store/repair.h"
#include "ui/app/app_assets.h"
#include "ui/app/stage.h"
#include "ui/commands/commands.h"
#include "ui/commands/notice.h"
#include "ui/platform/sound.h"
#include "ui/platform/waker.h"

namespace ui {
namespace {

constexpr engine::Ms kFingerFrame{33};  // while a finger is down or a bar fills

DisplayOptions display_options(const ScreensCall& call) {
  DisplayOptions options;
  options.full_screen = call.full_screen;
  if (call.mm_per_px)
    options.px_per_mm = static_cast<float>(1.0 / *call.mm_per_px);
  else if (!call.full_screen)
    options.diagonal_mm = 10.1F * kMmPerInch;
  return options;
}

std::string folder_of(const std::string& file) {
  const std::size_t slash = file.rfind('/');
  return slash == std::string::npos ? "." : file.substr(0, slash);
}

// `begin`: whether a new store could be begun where this one does not open.
engine::Result<std::unique_ptr<App>> make_app(const ScreensCall& call, const Surroundings& around,
                                              bool& begin) {
  auto assets = load_assets(around.assets, around.environment);
  if (!assets.ok()) return assets.status();
  for (const std::string& line : assets.value().refused) say_failure(engine::Code::BadInput, line);
  auto store = open_store(call, around, true);
  begin = !store.ok() && store.status().code() != engine::Code::Busy;
  if (!store.ok()) return store.status();
  AppParts parts;
  parts.labels = std::move(assets.value().labels);
  parts.themes = std::move(assets.value().themes);
  parts.refused_files = std::move(assets.value().refused);
  parts.methods = std::move(assets.value().methods);
  parts.theme = call.theme;
  parts.new_id = around.new_id;
  parts.store_path = store_file(call, around).value();
  parts.log_folder = folder_of(parts.store_path) + "/logs";
  return std::make_unique<App>(std::move(store).value(), std::move(parts));
}

// One turn: hear, draw, call, and sleep until there is a reason not to.
class Loop {
 public:
  Loop(App& app, Stage& stage, const Surroundings& around)
      : app_(app),
        stage_(stage),
        around_(around),
        waker_(Waker::source_for(stage.display().video_driver())) {
    app_.set_sticks(watch_.now());  // those that are in already; changed() tells of others only
    if (watch_.fd() >= 0) waker_.watch(watch_.fd(), POLLPRI);
    if (around_.stop_fd >= 0) waker_.watch(around_.stop_fd, POLLIN);
    if (const int asked = app_.listen(); asked >= 0) waker_.watch(asked, POLLIN);
  }

  bool turn() {
    const engine::Ms heard = hear();
    if (!stage_.obey_window() || around_.stopped()) return false;
    app_.answer_looks();
    app_.typed(stage_.take_typed());
    if (watch_.changed()) app_.set_sticks(watch_.now());
    const engine::Stamp now = around_.now();
    stage_.show(app_, now, heard.count());
    app_.shown(around_.now().since_boot.count());
    sound(now);
    sleep(until_next(now));
    return true;
  }

 private:
  // A tone first; what is said waits for its end.
  void sound(const engine::Stamp& now) {
    const engine::Setup& setup = app_.farm().setup;
    sound_.set({setup.sound_volume.value_or(100), setup.spoken.value_or(true)},
               setup.speech_speed.value_or(Voice{}.words_a_minute));
    if (const auto tone = app_.tone_wanted(now)) sound_.tone(*tone, now.since_boot);
    sound_.say(app_.speech_wanted(now), now.since_boot);
    sound_.turn(now.since_boot);
  }

  // Takes what the fingers did since the last time: when, the kernel knows, or else it was between
  // the end of that time (the end of the sleep, if there was one) and now.
  engine::Ms hear() {
    const engine::Ms now = around_.now().since_boot;
    stage_.input().poll(
        {{std::min(deaf_since_, now).count(), now.count()},
         [this](std::int64_t finger, bool down) { return waker_.finger_time(finger, down); }});
    deaf_since_ = now;
    return now;
  }

  void sleep(engine::Ms most) {
    // What ends a sleep happened just then.
    if (waker_.wait(most).slept) deaf_since_ = around_.now().since_boot;
  }

  [[nodiscard]] engine::Ms until_next(const engine::Stamp& now) const {
    if (stage_.input().busy()) return kFingerFrame;
    const engine::Ms frame = app_.next_frame_in(now).value_or(engine::Ms{60'000});
    return std::min(frame, sound_.wake().value_or(frame));
  }

  App& app_;
  Stage& stage_;
  const Surroundings& around_;
  Waker waker_;
  storage::StickWatch watch_;
  // A voice that reads the language of the texts; its code stands among them.
  Sound sound_{Voice{.language = engine::tr_in("voice", "en")}};
  engine::Ms deaf_since_{0};  // since boot
};

// On standard error at once, and on the screen if there is one, until it was read: a tablet that
// starts into Duskwalk shows no terminal. True: a new store is to be begun.
bool tell(const engine::Status& why, const ScreensCall& call, const Surroundings& around,
          bool begin) {
  say_failure(why);
  auto display = Display::open(display_options(call));
  if (!display.ok() || !can_be_seen(display.value().video_driver())) return false;
  auto stage = Stage::on(std::move(display).value());
  if (!stage.ok()) return false;
  Waker waker(Waker::source_for(stage.value()->display().video_driver()));
  Notice notice(why.message(), begin);
  if (around.stop_fd >= 0) waker.watch(around.stop_fd, POLLIN);
  while (!around.stopped() && stage.value()->obey_window() &&
         notice.turn(*stage.value(), around.now())) {
    (void)waker.wait(stage.value()->input().busy() ? kFingerFrame : engine::Ms{60'000});
    stage.value()->input().poll();
  }
  return notice.begins_anew();
}

engine::Status set_store_aside(const ScreensCall& call, const Surroundings& around) {
  const auto path = store_file(call, around);
  if (!path.ok()) return path.status();
  const std::string day = engine::iso_date(engine::local_date(around.now()));
  return storage::set_aside(path.value(), "damaged-" + day).status();
}

}  // namespace

int screens_command(const ScreensCall& call, const Surroundings& around) {
  bool begin = false;
  auto app = make_app(call, around, begin);
  if (!app.ok() && tell(app.status(), call, around, begin)) {
    if (const engine::Status aside = set_store_aside(call, around); !aside.ok())
      return tell(aside, call, around, false), 1;
    app = make_app(call, around, begin);
    if (!app.ok()) tell(app.status(), call, around, false);
  }
  if (!app.ok()) return 1;
  auto display = Display::open(display_options(call));
  if (!display.ok()) return say_failure(display.status());
  auto stage = Stage::on(std::move(display).value());
  if (!stage.ok()) return say_failure(stage.status());
  Loop loop(*app.value(), *stage.value(), around);
  while (loop.turn()) {
  }
  return 0;
}

}  // namespace ui
