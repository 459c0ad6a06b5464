// engine/core/status.h -- failures that come from outside, as values.
//
// A Status says whether something in the world (a disk, a stick, a file's text) let us do what we
// wanted. Its message is one line for the keeper: which field, line or file, what is wrong, what to
// do. Impossible acts are not failures of this kind: see Refusal in engine/events/refusal.h.
#pragma once
#include <cassert>
#include <optional>
#include <string>
#include <utility>

namespace engine {

enum class Code {
  Ok,
  BadInput,  // the call or the text we were given is wrong: exit 2
  NotFound,  // a file, folder or stick is not there
  Full,      // no room left on the medium
  ReadOnly,  // the medium may not be written
  Gone,      // the medium went away under our hands
  Damaged,   // stored bytes are not what was written
  Busy,      // another program holds the store
  TooNew,    // written by a later version
  Failed,    // any other failure of the outside
};

[[nodiscard]] constexpr const char* name(Code c) {
  switch (c) {
    case Code::Ok:
      return "ok";
    case Code::BadInput:
      return "bad input";
    case Code::NotFound:
      return "not found";
    case Code::Full:
      return "full";
    case Code::ReadOnly:
      return "read-only";
    case Code::Gone:
      return "gone";
    case Code::Damaged:
      return "damaged";
    case Code::Busy:
      return "busy";
    case Code::TooNew:
      return "too new";
    case Code::Failed:
      return "failed";
  }
  return "?";
}

class [[nodiscard]] Status {
 public:
  Status() = default;
  Status(Code code, std::string message) : code_(code), message_(std::move(message)) {}

  [[nodiscard]] bool ok() const { return code_ == Code::Ok; }
  [[nodiscard]] Code code() const { return code_; }
  [[nodiscard]] const std::string& message() const { return message_; }

 private:
  Code code_ = Code::Ok;
  std::string message_;
};

// Ends the program with a line that says why, in every build: who asks for a value asked ok()
// first.
[[noreturn]] void no_value(const Status& why);

// Either a value or the Status that says why there is none.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : value_(std::move(value)) {}                      // NOLINT: implicit
  Result(Status why) : why_(std::move(why)) { assert(!why_.ok()); }  // NOLINT: implicit
  Result(Code code, std::string message) : why_(code, std::move(message)) {}

  [[nodiscard]] bool ok() const { return value_.has_value(); }
  [[nodiscard]] const Status& status() const { return why_; }
  [[nodiscard]] const T& value() const& {
    if (!ok()) no_value(why_);
    return *value_;
  }
  [[nodiscard]] T& value() & {
    if (!ok()) no_value(why_);
    return *value_;
  }
  [[nodiscard]] T&& value() && {
    if (!ok()) no_value(why_);
    return *std::move(value_);
  }

 private:
  std::optional<T> value_;
  Status why_;
};

}  // namespace engine
