// ui/screens/walk/now/walk_speech.h -- what is said aloud in a walk, once each.
//
// Pure, apart from its memory of what was said. Numbers are spelt out, so that any speech program
// says them alike: "B four. Two grams. Set."
#pragma once
#include <set>
#include <string>
#include <utility>

#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

inline constexpr engine::Ms kSaidBefore{30'000};  // a cloth's end is announced: own choice

// "B four", "fourteen", "one point seven five"; words stay as they are.
[[nodiscard]] std::string spoken(std::string_view words);

// What the button would say: "B four. Two grams. Set."; empty: nothing to do now but wait.
[[nodiscard]] std::string spoken_prompt(const Look& look, const engine::Walk& walk,
                                        const Step& step);

// What was said already; one for the life of the app.
struct SpeechMemory {
  std::string prompt;
  std::set<std::pair<engine::ColonyId, engine::Ms>> announced;  // seals, by when they began
};
// What is to be said now, once: a new step's prompt, else a cloth that comes off within
// kSaidBefore. Empty: nothing new.
[[nodiscard]] std::string speech_wanted(SpeechMemory& memory, const Look& look,
                                        const engine::Walk& walk, const UnderWay& view);

}  // namespace ui
