// ui/screens/base/reasons.h -- one-tap phrases that add up to a sentence, and words of one's own.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "ui/screens/base/layout.h"

namespace ui {

// Draws the phrases; "Own words" is among them and opens the letters (field kOwnWords of typing).
inline constexpr int kOwnWords = 90;
void reasons(Touch& t, const Rect& rect, std::span<const std::string> list, int& page,
             std::vector<std::string>& said, std::string& written, Typing& typing);
// The panel of letters while it is open; true while it covers the screen.
bool writing_own_words(Touch& t, Typing& typing, std::string_view title, std::string& written);
// "queen seen, spotty brood": the phrases, then the own words.
[[nodiscard]] std::string sentence_of(const std::vector<std::string>& said,
                                      const std::string& written);

}  // namespace ui
