#include "storage/language/mo_catalogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/locale/gnu_gettext.hpp>
#include <limits>
#include <locale>
#include <vector>

#include "storage/disk/whole_file.h"

namespace storage {
namespace {

using Messages = boost::locale::message_format<char>;
namespace gnu_gettext = boost::locale::gnu_gettext;

constexpr std::size_t kMostBytes = 8 << 20;  // twenty times what all texts take

class MoCatalogue : public engine::Catalogue {
 public:
  explicit MoCatalogue(Messages* messages)
      : owner_(std::locale::classic(), messages), messages_(messages) {}

  [[nodiscard]] const char* find(const char* context, const char* english) const override {
    if (*english == '\0') return nullptr;  // the empty text is the file's header
    return messages_->get(0, context, english);
  }
  [[nodiscard]] const char* find_many(const char* one, long n) const override {
    const long most = std::numeric_limits<int>::max();
    return messages_->get(0, nullptr, one, static_cast<int>(std::clamp(n, 0L, most)));
  }

 private:
  std::locale owner_;  // counts the references to the messages
  const Messages* messages_;
};

gnu_gettext::messages_info info_of(const std::string& language, const std::string& bytes) {
  gnu_gettext::messages_info info;
  info.language = language;
  info.encoding = "UTF-8";
  info.domains.emplace_back("duskwalk");
  info.paths.emplace_back(".");
  info.callback = [&bytes](const std::string&, const std::string&) {
    return std::vector<char>(bytes.begin(), bytes.end());
  };
  return info;
}

// It becomes part of a path.
bool is_code(const std::string& language) {
  return language.size() == 2 &&
         std::all_of(language.begin(), language.end(), [](char c) { return c >= 'a' && c <= 'z'; });
}

}  // namespace

engine::Result<std::unique_ptr<engine::Catalogue>> read_catalogue(const std::string& folder,
                                                                  const std::string& language) {
  if (!is_code(language))
    return {engine::Code::BadInput, fmt::format("\"{}\" is no language like es", language)};
  const std::string file = fmt::format("{}/{}/LC_MESSAGES/duskwalk.mo", folder, language);
  const auto bytes = read_whole_file(file, kMostBytes);
  if (!bytes.ok()) return bytes.status();
  const engine::Status damaged{engine::Code::BadInput, file + ": no readable translations"};
  try {
    Messages* messages = gnu_gettext::create_messages_facet<char>(info_of(language, bytes.value()));
    if (messages == nullptr) return damaged;
    auto catalogue = std::make_unique<MoCatalogue>(messages);
    // msgfmt writes the header as the translation of the empty text.
    if (messages->get(0, nullptr, "") == nullptr) return damaged;
    return std::unique_ptr<engine::Catalogue>(std::move(catalogue));
  } catch (const std::exception&) {  // of the reader: lengths that point outside the file
    return damaged;
  }
}

}  // namespace storage
