// engine/events/events_outfit.h -- the keeper's own settings and notes.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/terms.h"
#include "engine/events/event_fields.h"
#include "engine/rules/label.h"
#include "engine/rules/pace.h"
#include "engine/rules/threshold.h"

namespace engine {

struct NoteWritten {
  static constexpr const char* kKind = "note";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::Words,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::YardOrColony,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::Nothing,
                                    .correctable = true,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"note", "notes"}};
  std::optional<YardId> yard;
  std::optional<ColonyId> colony;
  std::string text;
  DUSKWALK_FIELDS(f("yard", s.yard), f("colony", s.colony), f("text", s.text))
};

// Only the fields that are given change.
struct SetupChanged {
  static constexpr const char* kKind = "setup_changed";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  std::optional<std::string> operator_name;
  std::optional<std::string> operator_address;
  std::optional<TemperatureUnit> temperature_unit;
  std::optional<MassUnit> mass_unit;
  std::optional<Theme> theme;
  std::optional<LabelRules> rules;
  std::optional<Place> home{};  // where the keeper sets out from
  std::optional<Thresholds> thresholds{};
  std::optional<int> clean_every{};      // settings of a vaporizer between cleanings, 1 to 999
  std::optional<int> cartridge_hours{};  // worn until a cartridge is changed, 1 to 999
  std::optional<Pace> pace{};
  std::optional<bool> spoken{};           // what the button would say is said aloud
  std::optional<int> speech_speed{};      // words a minute, 80 to 400
  std::optional<int> sound_volume{};      // of tones and speech, 1 to 100
  std::optional<std::string> language{};  // ISO 639-1 in small letters
  std::optional<int> brightness{};        // of the screen in percent, 5 to 100
  std::optional<int> act_key{};           // that does what the button does, as SDL numbers it
  std::optional<int> half_cup_bees{};     // of the keeper's own measure, 50 to 1000
  std::optional<std::string> emergency_number{};  // shown with the first aid
  DUSKWALK_FIELDS(f("operator_name", s.operator_name), f("operator_address", s.operator_address),
                  f("temperature_unit", s.temperature_unit), f("mass_unit", s.mass_unit),
                  f("theme", s.theme), f("rules", s.rules), f("home", s.home),
                  f("thresholds", s.thresholds), f("clean_every", s.clean_every),
                  f("cartridge_hours", s.cartridge_hours), f("pace", s.pace), f("spoken", s.spoken),
                  f("speech_speed", s.speech_speed), f("sound_volume", s.sound_volume),
                  f("language", s.language), f("brightness", s.brightness), f("act_key", s.act_key),
                  f("half_cup_bees", s.half_cup_bees), f("emergency_number", s.emergency_number))
};

// The keeper of this tablet looked at what is set on others (the entries, setup_changed, that said
// it) and keeps what is set here: it is not asked again.
struct SetupKept {
  static constexpr const char* kKind = "setup_kept";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  std::vector<EntryRef> entries;
  DUSKWALK_FIELDS(f("entries", s.entries))
};

}  // namespace engine
