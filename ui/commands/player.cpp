#include "ui/commands/player.h"

#include <fmt/format.h>

#include <filesystem>

#include "engine/events/tag.h"
#include "storage/disk/whole_file.h"
#include "ui/commands/targets_json.h"

namespace ui {
namespace {

constexpr std::int64_t kPressMs = 80;    // a finger rests about so long on a button (own choice)
constexpr std::int64_t kApartMs = 1000;  // longer than any guard against bounce

}  // namespace

engine::Result<Target> target_called(const std::vector<Target>& targets, const std::string& label) {
  std::vector<Target> exact, holding;
  bool disabled = false;
  for (const Target& t : targets) {
    const bool same = t.label == label;
    if (!same && t.label.find(label) == std::string::npos) continue;
    if (!t.enabled) {
      disabled = true;
      continue;
    }
    (same ? exact : holding).push_back(t);
  }
  const std::vector<Target>& found = exact.empty() ? holding : exact;
  if (found.size() == 1) return found.front();
  if (found.size() > 1)
    return {engine::Code::Failed, fmt::format("{} targets are called \"{}\"", found.size(), label)};
  if (disabled) return {engine::Code::Failed, fmt::format("\"{}\" is grey", label)};
  std::string there;
  for (const Target& t : targets) there += (there.empty() ? "" : " | ") + t.label;
  return {engine::Code::Failed, fmt::format("no target \"{}\"; there are: {}", label, there)};
}

engine::Status Player::ready() {
  if (!app_) {
    auto app = make_app_();
    if (!app.ok()) return app.status();
    app_ = std::move(app).value();
    if (const engine::Status plugged = plug(); !plugged.ok()) return plugged;
  }
  if (!stage_) {
    DisplayOptions options;
    options.width_px = screen_.width;
    options.height_px = screen_.height;
    options.diagonal_mm = screen_.inches * kMmPerInch;
    auto display = Display::open_headless(options);
    if (!display.ok()) return display.status();
    auto stage = Stage::on(std::move(display).value());
    if (!stage.ok()) return stage.status();
    stage_ = std::move(stage).value();
    show();
  }
  return {};
}

void Player::show() {
  stage_->show(*app_, clock_.now, clock_.touch_ms);
  app_->finish_jobs();
  stage_->show(*app_, clock_.now, clock_.touch_ms);
  app_->shown(clock_.touch_ms);
  listen();
}

// What the real loop would play and say.
void Player::listen() {
  if (app_->alarm_wanted(clock_.now)) ++tones_;
  const std::string said = app_->speech_wanted(clock_.now);
  if (!said.empty()) heard_ += said + "\n";
}

// Second by second, as the real loop would draw a running countdown.
engine::Status Player::wait(engine::Ms length) {
  while (length > engine::Ms{0}) {
    const engine::Ms step = std::min(length, engine::Ms{1000});
    clock_.now = engine::after(clock_.now, step);
    clock_.touch_ms += step.count();
    length -= step;
    stage_->show(*app_, clock_.now, clock_.touch_ms);
    app_->shown(clock_.touch_ms);
    listen();
  }
  return {};
}

engine::Status Player::touch(const std::string& label, bool hold) {
  const auto found = target_called(app_->touch().targets(), label);
  if (!found.ok()) return found.status();
  const Rect& r = found.value().rect;
  clock_.touch_ms += kApartMs;
  stage_->input().press(r.mid_x(), r.mid_y(), clock_.touch_ms);
  show();
  for (std::int64_t held = 0; hold && held <= kHoldMs; held += kHoldFrameMs) {
    clock_.touch_ms += kHoldFrameMs;
    show();
  }
  clock_.touch_ms += kPressMs;
  stage_->input().release(r.mid_x(), r.mid_y(), clock_.touch_ms);
  show();
  clock_.touch_ms += kApartMs;
  show();
  return {};
}

bool Player::sees(const std::string& words) const {
  for (const ShownText& t : app_->touch().texts())
    if (t.text.find(words) != std::string::npos) return true;
  for (const Target& t : app_->touch().targets())
    if (t.label.find(words) != std::string::npos) return true;
  return false;
}

engine::Status Player::save_targets(const std::string& name) {
  return storage::write_whole_file(out_ + "/" + name + ".json",
                                   targets_json(app_->touch(), tones_));
}

// Tells the app of the stick that is in, or that none is.
engine::Status Player::plug() {
  if (!stick_folder_) return app_->set_sticks({}), engine::Status{};
  std::error_code error;
  const std::string folder = std::filesystem::absolute(*stick_folder_, error).string();
  if (!error) std::filesystem::create_directories(folder, error);
  if (error) return {engine::Code::Failed, fmt::format("{}: {}", folder, error.message())};
  auto stick = storage::folder_as_stick(folder);
  if (!stick.ok()) return stick.status();
  stick.value().medium = storage::Medium::Stick;
  app_->set_sticks({std::move(stick).value()});
  return {};
}

// A scanner types the tag of the colony of that name and a Return. Another word is typed as it is.
engine::Status Player::scan(const std::string& words) {
  std::string typed = words;
  for (const auto& [id, colony] : app_->farm().colonies)
    if (colony.name == words) typed = engine::tag_of(id);
  app_->typed(typed + "\n");
  show();
  return {};
}

// The screens are closed meanwhile: one program at a time has the store.
engine::Status Player::read(const std::string& file) {
  app_.reset();
  if (const engine::Status done = read_sheet_(file, clock_.now); !done.ok()) return done;
  if (const engine::Status up = ready(); !up.ok()) return up;
  show();
  return {};
}

engine::Status Player::play(const PlayStep& step) {
  if (step.act == PlayAct::Screen) {
    screen_ = step;
    stage_.reset();
    return ready();
  }
  if (step.act == PlayAct::At) {
    clock_.now.at = step.at.at;
    clock_.now.zone = step.at.zone;
  }
  if (step.act == PlayAct::StickIn) stick_folder_ = step.words;
  if (step.act == PlayAct::StickOut) stick_folder_.reset();
  if (const engine::Status up = ready(); !up.ok()) return up;
  switch (step.act) {
    case PlayAct::Tap:
      return touch(step.words, false);
    case PlayAct::Hold:
      return touch(step.words, true);
    case PlayAct::Wait:
      return wait(step.length);
    case PlayAct::See:
      if (!sees(step.words))
        return {engine::Code::Failed, fmt::format("\"{}\" is not on the screen", step.words)};
      return {};
    case PlayAct::Miss:
      if (sees(step.words))
        return {engine::Code::Failed, fmt::format("\"{}\" is on the screen", step.words)};
      return {};
    case PlayAct::Hear:
      if (heard_.find(step.words) == std::string::npos)
        return {engine::Code::Failed,
                fmt::format("\"{}\" was not said; said was: {}", step.words, heard_)};
      heard_.clear();
      return {};
    case PlayAct::Shot:
      return stage_->save_png(out_ + "/" + step.words + ".png");
    case PlayAct::Targets:
      return save_targets(step.words);
    case PlayAct::Read:
      return read(step.words);
    case PlayAct::Scan:
      return scan(step.words);
    case PlayAct::StickIn:
    case PlayAct::StickOut:
      if (const engine::Status plugged = plug(); !plugged.ok()) return plugged;
      [[fallthrough]];
    case PlayAct::At:
      show();
      return {};
    case PlayAct::Screen:
    case PlayAct::Crash:
      break;
  }
  return {};
}

}  // namespace ui
