// ui/app/exchange_watch.h -- the exchange folder while the screens are open: looked at once a
// minute, never in the middle of a walk.
//
// The folder is read and written on a thread of its own, because its file system may not answer;
// what that does on the store is done here, between two frames (store_calls.h). A thread that
// stalls is left behind when another folder is chosen or the program ends.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "storage/bundle/exchange.h"
#include "ui/app/beside.h"
#include "ui/app/store_calls.h"
#include "ui/screens/base/screen.h"

namespace ui {

class ExchangeWatch {
 public:
  using MakeFiles = std::function<std::unique_ptr<storage::Files>()>;

  // With the folder that was chosen last on this tablet, if any (storage/bundle/exchange.h).
  explicit ExchangeWatch(const std::string& store_path, MakeFiles make_files = {});
  ~ExchangeWatch();  // a bundle that is being written gets a second to become whole
  ExchangeWatch(const ExchangeWatch&) = delete;
  ExchangeWatch& operator=(const ExchangeWatch&) = delete;

  // Empty: none any more. Looked at in the next turn.
  engine::Status use(const std::string& folder);
  void look_now() { next_.reset(); }

  // Begins a pass where it is time for one, and does its part on the store of the one under way;
  // true: one has ended. Never waits for the folder.
  bool turn(storage::Store& store, const engine::Stamp& now);
  // A pass is under way.
  [[nodiscard]] bool busy() const { return pass_.busy(); }
  // Goes on with the pass under way until it ends or waits for a walk; for scripts.
  void settle(storage::Store& store);
  // Since boot; none: nothing is watched.
  [[nodiscard]] std::optional<engine::Ms> next() const;
  [[nodiscard]] const ExchangeSeen& seen() const { return seen_; }

 private:
  // Nothing: there was no reason for a pass.
  using Ended = std::optional<engine::Result<storage::Exchanged>>;
  void begin(const engine::Stamp& now);
  void end(const Ended& ended, const engine::Stamp& now);

  std::string store_path_;
  MakeFiles make_files_;
  std::optional<engine::Ms> next_;  // since boot; none: at once
  engine::Ms begun_{0};             // since boot; of the pass under way
  StoreCalls calls_;
  Beside<Ended> pass_;
  ExchangeSeen seen_;
};

}  // namespace ui
