// engine/core/shared_text.h -- a text that never changes and that copies share: for what stands in
// many thousand values alike.
#pragma once
#include <memory>
#include <string>
#include <utility>

namespace engine {

class SharedText {
 public:
  SharedText() = default;
  SharedText(std::string text) {  // as texts are assigned
    if (!text.empty()) text_ = std::make_shared<const std::string>(std::move(text));
  }
  SharedText(const char* text) : SharedText(std::string(text)) {}

  [[nodiscard]] bool empty() const { return !text_; }
  [[nodiscard]] const std::string& str() const {
    static const std::string kNone;
    return text_ ? *text_ : kNone;
  }
  friend bool operator==(const SharedText& a, const SharedText& b) {
    return a.text_ == b.text_ || a.str() == b.str();
  }

 private:
  std::shared_ptr<const std::string> text_;  // none: empty
};

}  // namespace engine
