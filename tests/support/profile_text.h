// tests/support/profile_text.h -- the text of a shipped profile, and the same with a flaw in it.
#pragma once
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>

namespace fixture {

inline std::string profile_text(const std::string& folder, const std::string& id) {
  std::ostringstream text;
  text << std::ifstream(folder + "/" + id + ".json").rdbuf();
  return text.str();
}

inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace fixture
