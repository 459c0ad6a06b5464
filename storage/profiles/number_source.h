// storage/profiles/number_source.h -- where one number of a file of rules comes from.
#pragma once
#include <string>

namespace storage {

struct NumberSource {
  std::string field;       // as in the file: "per_brood_box_mg"
  std::string source;      // a document
  std::string confidence;  // "read in the document", "second-hand", "from memory", ...
};

}  // namespace storage
