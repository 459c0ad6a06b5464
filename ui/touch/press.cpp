#include "ui/touch/press.h"

#include <algorithm>

namespace ui {

void Press::step(const Finger& finger, std::int64_t now_ms, const std::vector<Target>& shown) {
  const bool was_down = finger_.down;
  counted_.reset();
  now_ = now_ms;
  finger_.down = finger.down;
  // A lift keeps the last place if the platform has already cleared its own (-FLT_MAX).
  if (finger.x > -1e30F && finger.y > -1e30F) {
    finger_.x = finger.x;
    finger_.y = finger.y;
  }
  if (finger.down && !was_down) press(now_ms, shown);
  if (caught_ && was_down) keep(now_ms, shown);
  if (!finger.down && was_down) lift(now_ms);
}

void Press::press(std::int64_t now_ms, const std::vector<Target>& shown) {
  caught_.reset();
  const auto hit = std::find_if(shown.rbegin(), shown.rend(), [&](const Target& target) {
    return target.rect.contains(finger_.x, finger_.y);
  });
  if (hit == shown.rend() || !hit->enabled || bounce(*hit, now_ms)) return;
  caught_ = Caught{*hit, finger_.x, finger_.y, now_ms, false};
}

// The finger is or was down on a target: is that still there, has a hold come to its end?
void Press::keep(std::int64_t now_ms, const std::vector<Target>& shown) {
  if (caught_->counted) return;
  const bool slid_off = caught_->target.hold && !near_target();
  if (!still_shown(shown) || slid_off) {
    caught_.reset();
  } else if (caught_->target.hold && now_ms - caught_->since >= kHoldMs) {
    count();
  }
}

void Press::lift(std::int64_t now_ms) {
  if (!caught_) return;
  if (!caught_->target.hold && near_target()) count();
  // Bounces follow the lift, so that is when the guard starts, for holds as well.
  if (caught_->counted) last_at_ = now_ms;
  caught_.reset();
}

void Press::count() {
  caught_->counted = true;
  counted_ = caught_;
  last_ = caught_->target;
  last_at_ = now_;
}

bool Press::bounce(const Target& target, std::int64_t now_ms) const {
  if (!last_ || now_ms - last_at_ > kBounceMs) return false;
  return target.id == last_->id || last_->rect.contains(finger_.x, finger_.y);
}

bool Press::still_shown(const std::vector<Target>& shown) const {
  return std::any_of(shown.begin(), shown.end(), [&](const Target& target) {
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
