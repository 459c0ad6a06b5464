#include "storage/answers/order_json.h"
#include "tests/fuzz/targets.h"

namespace {

// The search takes seconds for many colonies; its own tests hold it to that.
constexpr std::size_t kMostSites = 5;

}  // namespace

void fuzz::order(std::string_view bytes) {
  const auto asked = storage::read_order_case(bytes);
  if (!asked.ok()) {
    must(!asked.status().message().empty(), "a refusal says why");
    return;
  }
  if (asked.value().sites.size() > kMostSites) return;
  (void)storage::order_plan_json(asked.value(), engine::plan_order(asked.value()));
}
