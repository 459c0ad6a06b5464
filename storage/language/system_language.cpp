#include "storage/language/system_language.h"

#include <algorithm>

namespace storage {
namespace {

std::string value_of(const Environment& environment, const char* name) {
  const auto at = environment.find(name);
  return at == environment.end() ? "" : at->second;
}

// "es_MX.UTF-8@euro" is es.
void add_code(const std::string& locale, std::vector<std::string>& codes) {
  const std::string code = locale.substr(0, locale.find_first_of("_.@"));
  if (code.size() == 2) codes.push_back(code);
}

}  // namespace

std::vector<std::string> wanted_languages(const Environment& environment) {
  std::string locale;
  for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"})
    if (locale.empty()) locale = value_of(environment, name);
  if (locale == "C" || locale == "POSIX") return {"en"};
  std::vector<std::string> codes;
  const std::string list = value_of(environment, "LANGUAGE");
  for (std::size_t from = 0; from < list.size();) {
    const std::size_t end = std::min(list.find(':', from), list.size());
    add_code(list.substr(from, end - from), codes);
    from = end + 1;
  }
  add_code(locale, codes);
  return codes;
}

}  // namespace storage
