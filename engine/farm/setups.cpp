#include "engine/farm/setups.h"

#include <algorithm>

#include "engine/farm/fold.h"

namespace engine {
namespace {

// nullptr: nothing was ever set there.
const TabletSetup* setup_at(const Farm& f, DeviceId device) {
  for (;;) {
    if (const auto at = f.setups.find(device); at != f.setups.end()) return &at->second;
    const Branch* branch = find_branch(f.branches, device);
    if (branch == nullptr) return nullptr;
    device = branch->after;
  }
}

template <class T>
void set_if(T& field, const std::optional<T>& given) {
  if (given) field = *given;
}
template <class T>
void set_if(std::optional<T>& field, const std::optional<T>& given) {
  if (given) field = given;
}

// What a tablet has and this one has not, or otherwise.
template <class T>
std::optional<T> other(const std::optional<T>& there, const std::optional<T>& here) {
  return there == here ? std::nullopt : there;
}
template <class T>
std::optional<T> other(const T& there, const T& here) {
  return there == here ? std::nullopt : std::optional(there);
}

SetupChanged offered(const Setup& there, const Setup& here) {
  SetupChanged change;
  change.rules = other(there.rules, here.rules);
  change.thresholds = other(there.thresholds, here.thresholds);
  change.clean_every = other(there.clean_every, here.clean_every);
  change.cartridge_hours = other(there.cartridge_hours, here.cartridge_hours);
  return change;
}

// What one other tablet offers, looked at or not.
struct Single {
  DeviceId tablet;
  EntryRef entry;
  SetupChanged change;
};

std::vector<Single> all_offers(const Farm& f, const Setup& here) {
  std::vector<Single> all;
  for (const auto& [device, there] : f.setups) {
    if (device == f.own || there.offered.seq == 0) continue;
    SetupChanged change = offered(there.setup, here);
    if (is_offer(change)) all.push_back({device, there.offered, std::move(change)});
  }
  return all;
}

bool same_offer(const SetupChanged& a, const SetupChanged& b) {
  return a.rules == b.rules && a.thresholds == b.thresholds && a.clean_every == b.clean_every &&
         a.cartridge_hours == b.cartridge_hours;
}

}  // namespace

// ---- for the fold ----

TabletSetup& setup_to_change(Farm& f, DeviceId device) {
  if (const auto at = f.setups.find(device); at != f.setups.end()) return at->second;
  const TabletSetup* before = setup_at(f, device);
  return f.setups[device] = before == nullptr ? TabletSetup{} : TabletSetup{*before};
}

void change(Setup& s, const SetupChanged& by) {
  set_if(s.operator_name, by.operator_name);
  set_if(s.operator_address, by.operator_address);
  set_if(s.temperature_unit, by.temperature_unit);
  set_if(s.mass_unit, by.mass_unit);
  set_if(s.theme, by.theme);
  set_if(s.rules, by.rules);
  set_if(s.home, by.home);
  set_if(s.thresholds, by.thresholds);
  set_if(s.clean_every, by.clean_every);
  set_if(s.cartridge_hours, by.cartridge_hours);
  set_if(s.pace, by.pace);
  set_if(s.spoken, by.spoken);
  set_if(s.speech_speed, by.speech_speed);
  set_if(s.sound_volume, by.sound_volume);
  set_if(s.language, by.language);
  set_if(s.brightness, by.brightness);
  set_if(s.act_key, by.act_key);
  set_if(s.half_cup_bees, by.half_cup_bees);
  set_if(s.emergency_number, by.emergency_number);
}

bool is_offer(const SetupChanged& c) {
  return c.rules || c.thresholds || c.clean_every || c.cartridge_hours;
}

void show_own_setup(Farm& f) {
  if (f.own.empty() && f.setups.size() == 1)
    f.setup = f.setups.begin()->second.setup;
  else
    f.setup = setup_of(f, f.own);
}

// ---- for who looks ----

Farm shown_on(Farm farm, DeviceId device) {
  farm.own = device;
  show_own_setup(farm);
  return farm;
}

Setup setup_of(const Farm& farm, DeviceId device) {
  const TabletSetup* there = setup_at(farm, device);
  return there == nullptr ? Setup{} : there->setup;
}

std::vector<Offer> offers(const Farm& farm) {
  const TabletSetup* own = setup_at(farm, farm.own);
  std::vector<Offer> all;
  for (Single& single : all_offers(farm, farm.setup)) {
    if (own != nullptr && own->kept.contains(single.entry)) continue;
    const auto same = std::find_if(all.begin(), all.end(), [&](const Offer& o) {
      return same_offer(o.change, single.change);
    });
    if (same != all.end())
      same->entries.push_back(single.entry);
    else
      all.push_back({single.tablet, {single.entry}, std::move(single.change)});
  }
  return all;
}

std::vector<Body> chosen_here(const Farm& farm, const SetupChanged& by) {
  Setup after = farm.setup;
  change(after, by);
  const std::vector<Single> before = all_offers(farm, farm.setup);
  SetupKept kept;
  for (const Single& o : all_offers(farm, after))
    if (std::none_of(before.begin(), before.end(),
                     [&](const Single& b) { return b.entry == o.entry; }))
      kept.entries.push_back(o.entry);
  if (kept.entries.empty()) return {by};
  return {by, std::move(kept)};
}

std::optional<SetupChanged> all_of(const Setup& from, const Setup& here) {
  SetupChanged c = offered(from, here);
  c.operator_name = other(from.operator_name, here.operator_name);
  c.operator_address = other(from.operator_address, here.operator_address);
  c.temperature_unit = other(from.temperature_unit, here.temperature_unit);
  c.mass_unit = other(from.mass_unit, here.mass_unit);
  c.theme = other(from.theme, here.theme);
  c.home = other(from.home, here.home);
  c.pace = other(from.pace, here.pace);
  c.spoken = other(from.spoken, here.spoken);
  c.speech_speed = other(from.speech_speed, here.speech_speed);
  c.sound_volume = other(from.sound_volume, here.sound_volume);
  c.language = other(from.language, here.language);
  c.half_cup_bees = other(from.half_cup_bees, here.half_cup_bees);
  c.emergency_number = other(from.emergency_number, here.emergency_number);
  const bool person = c.operator_name || c.operator_address || c.temperature_unit || c.mass_unit ||
                      c.theme || c.home || c.pace || c.spoken || c.speech_speed || c.sound_volume ||
                      c.language || c.half_cup_bees || c.emergency_number;
  return person || is_offer(c) ? std::optional(std::move(c)) : std::nullopt;
}

}  // namespace engine
