// engine/kit/learned.h -- all that is learned from the log about the keeper's kit.
#pragma once
#include "engine/kit/battery.h"
#include "engine/walk/dwell.h"

namespace engine {

struct Learned {
  DwellModel dwell;
  BatteryModel battery;
};
// Proportional to the log: keep the result until the log grows (ui/app.cpp does).
[[nodiscard]] inline Learned learn(const Farm& farm) {
  return {learn_dwell(farm), learn_battery(farm)};
}

}  // namespace engine
