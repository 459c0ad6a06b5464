// ui/app/exchange_watch.h -- the exchange folder while the screens are open: looked at once a
// minute, never in the middle of a walk.
#pragma once
#include <optional>
#include <string>

#include "storage/store/store.h"
#include "ui/screens/base/screen.h"

namespace ui {

class ExchangeWatch {
 public:
  // With the folder that was chosen last on this tablet, if any (storage/bundle/exchange.h).
  explicit ExchangeWatch(const std::string& store_path);

  // Empty: none any more. Looked at in the next turn.
  engine::Status use(const std::string& folder);
  void look_now() { next_.reset(); }

  // A pass where it is time for one; false: there was none.
  bool turn(storage::Store& store, const engine::Stamp& now);
  // Since boot; none: nothing is watched.
  [[nodiscard]] std::optional<engine::Ms> next() const;
  [[nodiscard]] const ExchangeSeen& seen() const { return seen_; }

 private:
  void pass(storage::Store& store, const engine::Stamp& now);

  std::string store_path_;
  std::optional<engine::Ms> next_;  // since boot; none: at once
  ExchangeSeen seen_;
};

}  // namespace ui
