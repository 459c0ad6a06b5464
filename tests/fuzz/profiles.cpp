#include "storage/profiles/labels.h"
#include "storage/profiles/methods.h"
#include "tests/fuzz/targets.h"

void fuzz::profiles(std::string_view bytes) {
  const auto label = storage::parse_label(std::string(bytes));
  must(label.ok() || !label.status().message().empty(), "a refused label says why");
  const auto method = storage::parse_method(std::string(bytes));
  must(method.ok() || !method.status().message().empty(), "a refused method says why");
}
