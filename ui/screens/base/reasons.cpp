#include "ui/screens/base/reasons.h"

#include <algorithm>

namespace ui {

void reasons(Touch& t, const Rect& rect, std::span<const std::string> list, int& page,
             std::vector<std::string>& said, std::string& written, Typing& typing) {
  std::vector<Phrase> shown;
  for (const std::string& words : list)
    shown.push_back({words, std::find(said.begin(), said.end(), words) != said.end()});
  shown.push_back({"Own words" + (written.empty() ? "" : ": " + written), !written.empty()});
  const auto tapped = phrases(t, rect, page, shown);
  if (!tapped) return;
  if (*tapped == list.size()) {
    start_words(typing, kOwnWords, written);
    return;
  }
  const auto at = std::find(said.begin(), said.end(), list[*tapped]);
  if (at == said.end()) {
    said.push_back(list[*tapped]);
  } else {
    said.erase(at);
  }
}

bool writing_own_words(Touch& t, Typing& typing, std::string_view title, std::string& written) {
  if (typing.field != kOwnWords) return false;
  typed_words(t, typing, {std::string(title), 60, true}, written);
  return true;
}

std::string sentence_of(const std::vector<std::string>& said, const std::string& written) {
  std::string all;
  for (const std::string& words : said) all += (all.empty() ? "" : ", ") + words;
  if (!written.empty()) all += (all.empty() ? "" : ", ") + written;
  return all;
}

}  // namespace ui
