#include <nlohmann/json.hpp>

#include "storage/answers/mites_json.h"
#include "tests/fuzz/targets.h"

namespace {

// Searches and years of brood take seconds by design; the reading of their fields is the same.
bool takes_long(const nlohmann::json& ask) {
  if (!ask.is_object()) return false;
  const auto over = [&](const char* key, int most) {
    return ask.contains(key) && ask[key].is_number() && ask[key] > most;
  };
  return ask.contains("search") || over("days", 60) || over("evaluate_day", 60);
}

}  // namespace

void fuzz::mites(std::string_view bytes) {
  if (takes_long(nlohmann::json::parse(bytes, nullptr, false))) return;
  const auto answer = storage::answer_mites(bytes);
  must(answer.ok() || !answer.status().message().empty(), "a refusal says why");
  must(!answer.ok() || nlohmann::json::accept(answer.value()), "an answer is JSON");
}
