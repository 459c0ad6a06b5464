#include "engine/core/status.h"

#include <cstdio>
#include <cstdlib>

namespace engine {

void no_value(const Status& why) {
  std::fprintf(stderr, "duskwalk: a value was asked of a failure: %s (%s)\n", why.message().c_str(),
               name(why.code()));
  std::abort();
}

}  // namespace engine
