#include "ui/touch/press.h"

#include <algorithm>
#include <utility>

namespace ui {

void Press::step(const Finger& finger, TouchTime at, const std::vector<Target>& built) {
  const bool was_down = finger_.down;
  counted_.reset();
  now_ = at.latest;
  finger_.down = finger.down;
  const bool somewhere = finger.x > -1e30F && finger.y > -1e30F;  // ImGui's word for nowhere
  if (somewhere) {
    finger_.x = finger.x;
    finger_.y = finger.y;
  } else if (!finger.down && was_down) {
    caught_.reset();
  }
  if (finger.down && !was_down) press(at, built);
  // A hold is over as soon as it may be: what is not sure to have lasted a second has not.
  if (caught_) keep(at.earliest, built);
  if (!finger.down && was_down) lift(at);
}

void Press::shown(std::int64_t at_ms, const std::vector<Target>& targets) {
  was_shown_ = std::exchange(now_shown_, Shown{at_ms, targets});
}

// The targets on the screen at that time. No finger is heard more than one picture late.
const std::vector<Target>& Press::aimed_at(std::int64_t at_ms,
                                           const std::vector<Target>& built) const {
  if (!now_shown_) return built;
  const bool before = was_shown_ && at_ms < now_shown_->since;
  return before ? was_shown_->targets : now_shown_->targets;
}

void Press::press(TouchTime at, const std::vector<Target>& built) {
  caught_.reset();
  const auto& aimed = aimed_at(at.earliest, built);
  const auto hit = std::find_if(aimed.rbegin(), aimed.rend(), [&](const Target& target) {
    return target.rect.contains(finger_.x, finger_.y);
  });
  if (hit == aimed.rend() || !hit->enabled || bounce(*hit, at.earliest)) return;
  caught_ = Caught{*hit, finger_.x, finger_.y, at.latest, false};
}

// The finger is or was down on a target: is that still there, has a hold come to its end?
void Press::keep(std::int64_t at_ms, const std::vector<Target>& built) {
  if (caught_->counted) return;
  const bool slid_off = caught_->target.hold && !near_target();
  if (!still_there(built) || slid_off) {
    caught_.reset();
  } else if (caught_->target.hold && at_ms - caught_->since >= kHoldMs) {
    count(at_ms);
  }
}

void Press::lift(TouchTime at) {
  if (!caught_) return;
  if (!caught_->target.hold && near_target()) count(at.latest);
  // Bounces follow the lift, so that is when the guard starts, for holds as well.
  if (caught_->counted) last_at_ = at.latest;
  caught_.reset();
}

void Press::count(std::int64_t at_ms) {
  caught_->counted = true;
  counted_ = caught_;
  last_ = caught_->target;
  last_at_ = at_ms;
}

bool Press::bounce(const Target& target, std::int64_t at_ms) const {
  if (!last_ || at_ms - last_at_ > kBounceMs) return false;
  return target.id == last_->id || last_->rect.contains(finger_.x, finger_.y);
}

bool Press::still_there(const std::vector<Target>& built) const {
  return std::any_of(built.begin(), built.end(), [&](const Target& target) {
    return target.enabled && target.id == caught_->target.id &&
           target.rect.contains(caught_->x, caught_->y);
  });
}

bool Press::near_target() const {
  const Rect& r = caught_->target.rect;
  return grown(r, r.h / 3).contains(finger_.x, finger_.y);
}

bool Press::tapped(const std::string& id, const Rect& rect) const {
  return counted_ && counted_->target.id == id && rect.contains(counted_->x, counted_->y);
}

bool Press::pressing(const std::string& id, const Rect& rect) const {
  return finger_.down && caught_ && caught_->target.id == id &&
         rect.contains(caught_->x, caught_->y) && near_target();
}

float Press::held(const std::string& id, const Rect& rect) const {
  if (!pressing(id, rect) || !caught_->target.hold) return 0;
  const float part = static_cast<float>(now_ - caught_->since) / static_cast<float>(kHoldMs);
  return std::clamp(part, 0.0F, 1.0F);
}

}  // namespace ui
