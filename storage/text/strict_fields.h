// storage/text/strict_fields.h -- reading a JSON object that a person or another program wrote:
// every key must be known, every value of its sort; the first that is not is remembered by its full
// name. Internal to storage.
#pragma once
#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace storage {

class Fields {
 public:
  // `wrong` is shared by all objects of one text; it keeps what was wrong first.
  Fields(const nlohmann::json& object, std::string name, std::string& wrong)
      : object_(object), name_(std::move(name)), wrong_(wrong) {}

  bool known(std::initializer_list<std::string_view> keys) {
    if (!object_.is_object()) return fail(name_.empty() ? "the file" : name_, "must be an object");
    for (const auto& [key, value] : object_.items())
      if (std::find(keys.begin(), keys.end(), key) == keys.end())
        return fail(called(key), "is not a known field");
    return true;
  }
  [[nodiscard]] const nlohmann::json* find(const char* key) const {
    const auto at = object_.find(key);
    return at == object_.end() ? nullptr : &*at;
  }
  const nlohmann::json* need(const char* key) {
    const nlohmann::json* value = find(key);
    if (value == nullptr) fail(called(key), "is missing");
    return value;
  }

  void number(const char* key, double& to) {
    if (const nlohmann::json* value = need(key)) take(called(key), *value, to);
  }
  void number(const char* key, std::optional<double>& to) {
    if (const nlohmann::json* value = find(key)) take(called(key), *value, to.emplace());
  }
  // What is not given keeps its value; numbers outside of the range are refused.
  void number_in(const char* key, double& to, double low, double high) {
    const nlohmann::json* value = find(key);
    if (value == nullptr || !take(called(key), *value, to)) return;
    check_range(key, to, low, high);
  }
  void whole(const char* key, int& to) {
    if (const nlohmann::json* value = need(key)) take(called(key), *value, to);
  }
  void whole_in(const char* key, int& to, int low, int high) {
    const nlohmann::json* value = find(key);
    if (value == nullptr || !take(called(key), *value, to)) return;
    if (to < low || to > high)
      fail(called(key), "must be from " + std::to_string(low) + " to " + std::to_string(high));
  }
  void text(const char* key, std::string& to) {
    const nlohmann::json* value = find(key);
    if (value == nullptr) return;
    if (value->is_string())
      to = value->get<std::string>();
    else
      fail(called(key), "must be text");
  }

  bool take(const std::string& field, const nlohmann::json& value, double& to) {
    if (!value.is_number()) return fail(field, "must be a number");
    to = value.get<double>();
    return std::isfinite(to) || fail(field, "must be finite");
  }
  bool take(const std::string& field, const nlohmann::json& value, int& to) {
    constexpr int kMost = 1'000'000'000;
    if (!value.is_number_integer() || value < -kMost || value > kMost)
      return fail(field, "must be a whole number");
    to = value.get<int>();
    return true;
  }
  bool fail(const std::string& field, const std::string& what) {
    if (wrong_.empty()) wrong_ = field + ": " + what;
    return false;
  }
  [[nodiscard]] std::string called(const std::string& key) const {
    return name_.empty() ? key : name_ + "." + key;
  }
  [[nodiscard]] bool fine() const { return wrong_.empty(); }
  [[nodiscard]] std::string& wrong() { return wrong_; }

 private:
  void check_range(const char* key, double value, double low, double high) {
    if (value >= low && value <= high) return;
    const auto words = [](double n) { return nlohmann::json(n).dump(); };
    fail(called(key), high < 1e300 ? "must be from " + words(low) + " to " + words(high)
                                   : "must be at least " + words(low));
  }

  const nlohmann::json& object_;
  std::string name_;
  std::string& wrong_;
};

}  // namespace storage
