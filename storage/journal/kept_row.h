// storage/journal/kept_row.h -- a row of the table meta that is kept beside the events.
#pragma once
#include <string>

namespace storage {

struct KeptRow {
  std::string key, value;  // UTF-8
};

}  // namespace storage
