#include "storage/profiles/profile_loader.h"

#include <fstream>
#include <sstream>

namespace storage::profile_loader {
namespace {

using engine::Code;
using engine::Status;

constexpr std::uintmax_t kLargestFile = 256 * 1024;

}  // namespace

engine::Result<std::string> read_text(const fs::path& path) {
  std::error_code failed;
  const auto size = fs::file_size(path, failed);
  if (failed) return Status(Code::Failed, "cannot be read: " + failed.message());
  if (size > kLargestFile) return Status(Code::BadInput, "is larger than any such file (256 kB)");
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) return Status(Code::Failed, "cannot be read");
  return text.str();
}

std::vector<fs::path> json_files(const fs::path& folder, std::error_code& failed) {
  std::vector<fs::path> files;
  fs::directory_iterator at(folder, failed);
  for (const fs::directory_iterator end; !failed && at != end; at.increment(failed))
    if (at->path().extension() == ".json") files.push_back(at->path());
  std::sort(files.begin(), files.end());
  return files;
}

std::string id_in(const engine::Result<std::string>& text) {
  if (!text.ok()) return {};
  const std::string& t = text.value();
  const std::size_t key = t.find("\"id\"");
  const std::size_t colon = t.find(':', key == std::string::npos ? key : key + 4);
  const std::size_t from = t.find('"', colon);
  if (key == std::string::npos || colon == std::string::npos || from == std::string::npos)
    return {};
  const std::size_t to = t.find('"', from + 1);
  return to == std::string::npos ? "" : t.substr(from + 1, to - from - 1);
}

bool is_id(const std::string& id) {
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !id.empty() && id.size() <= 60 && std::all_of(id.begin(), id.end(), fits);
}

std::string read_numbers(const nlohmann::json& from, std::vector<NumberSource>& to) {
  const auto numbers = from.find("numbers");
  if (numbers == from.end()) return {};
  if (!numbers->is_object()) return "numbers: must be an object";
  for (const auto& [field, value] : numbers->items()) {
    NumberSource number{field, {}, {}};
    if (!from.contains(field)) return "numbers." + field + ": the file has no such field";
    if (!value.is_object()) return "numbers." + field + ": must be an object";
    json_fields::Reader reader(value, "numbers." + field);
    reader("source", number.source);
    reader("confidence", number.confidence);
    if (!reader.wrong().empty()) return reader.wrong();
    to.push_back(std::move(number));
  }
  return {};
}

}  // namespace storage::profile_loader
