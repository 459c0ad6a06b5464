// Every file of tests/fuzz/corpus through the target of its folder: what was found stays found, on
// the ordinary machine. A target that fails ends the program; the line before says with which file.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "tests/fuzz/targets.h"

namespace fs = std::filesystem;

namespace {

using Target = void (*)(std::string_view);

const std::map<std::string, Target>& targets() {
  static const std::map<std::string, Target> kTargets{
      {"bundle", fuzz::bundle},     {"checkpoint", fuzz::checkpoint},
      {"entries", fuzz::entries},   {"mites", fuzz::mites},
      {"notes", fuzz::notes},       {"order", fuzz::order},
      {"pairing", fuzz::pairing},   {"play", fuzz::play},
      {"profiles", fuzz::profiles}, {"sealed", fuzz::sealed},
      {"sheet", fuzz::sheet},       {"signatures", fuzz::signatures},
      {"store", fuzz::store},       {"workbook", fuzz::workbook}};
  return kTargets;
}

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder)) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

int replay(const std::string& name, Target target, const fs::path& corpus) {
  if (!fs::is_directory(corpus / name)) {
    std::printf("there is no corpus for %s\n", name.c_str());
    return 1;
  }
  const auto files = files_in(corpus / name);
  for (const fs::path& file : files) {
    std::printf("%s\n", file.c_str());
    std::fflush(stdout);
    std::ifstream in(file, std::ios::binary);
    target(std::string{std::istreambuf_iterator<char>(in), {}});
  }
  return files.empty() ? 1 : 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  int wrong = 0;
  for (const auto& [name, target] : targets()) wrong += replay(name, target, words[1]);
  return wrong == 0 ? 0 : 1;
}
