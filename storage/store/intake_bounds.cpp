#include "storage/store/intake_bounds.h"

#include <fmt/format.h>

#include <optional>
#include <variant>
#include <vector>

namespace storage {
namespace {

constexpr std::chrono::year kFirstYear{1900};
// Of colonies in a walk, of rounds in a plan; one of 58,464 rounds took a minute at every opening.
constexpr std::size_t kLongestList = 5000;

// Goes through the fields of a body, and through those of what it holds, until one is wrong.
class Bounds {
 public:
  template <class Field>
  void operator()(const char* key, const Field& field) {
    if (wrong_.empty()) look(key, field);
  }
  [[nodiscard]] std::string wrong() && { return std::move(wrong_); }

 private:
  void look(const char* key, const std::string& text) {
    if (text.find('\0') != text.npos) wrong_ = fmt::format("{}: holds the character U+0000", key);
  }
  void look(const char* key, engine::Date day) {
    if (day.year() < kFirstYear)
      wrong_ = fmt::format("{}: the year {:04} is before 1900", key, static_cast<int>(day.year()));
  }
  void look(const char*, const engine::Replacement& instead) {
    std::visit([&](const auto& body) { body.fields(body, *this); }, instead.body());
  }
  template <class Field>
  void look(const char* key, const std::optional<Field>& field) {
    if (field) look(key, *field);
  }
  template <class Field>
  void look(const char* key, const std::vector<Field>& fields) {
    if (fields.size() > kLongestList) {
      wrong_ = fmt::format("{}: a list of {}, longer than any yard or plan", key, fields.size());
      return;
    }
    for (const Field& field : fields) (*this)(key, field);
  }
  template <class Field>
  void look(const char*, const Field& field) {
    if constexpr (requires { Field::fields(field, *this); }) Field::fields(field, *this);
  }

  std::string wrong_;
};

}  // namespace

std::string why_not_taken_in(const engine::Event& event) {
  Bounds bounds;
  std::visit([&](const auto& body) { body.fields(body, bounds); }, event.body);
  return std::move(bounds).wrong();
}

}  // namespace storage
