// ui/app/bundle_job.h -- writing one bundle beside the screens, without stopping them.
//
// The payload is made on the caller's thread (it reads the journal); the slow part, the medium, has
// a thread of its own that touches nothing but the payload it was given. One job at a time.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "storage/bundle/bag.h"
#include "storage/disk/removable_media.h"
#include "ui/screens/base/screen.h"

namespace ui {

// What went wrong with a stick or folder and what to do, in plain sentences without paths: the
// keeper chose the place and sees it on the screen.
[[nodiscard]] std::string plain_failure(const engine::Status& status, storage::Medium medium);

class BundleJob {
 public:
  BundleJob();
  // Waits for the write under way, because a half bundle helps nobody, while it goes on at all.
  ~BundleJob();
  BundleJob(const BundleJob&) = delete;
  BundleJob& operator=(const BundleJob&) = delete;

  // Not while one runs. A stick is let go of when the bundle is whole. `entries`: of the log now.
  // Letting go of a stick alone is a job too: it flushes, and a stick may stall.
  void start(storage::BagRequest request, std::size_t entries);
  void release(const std::string& path);
  void fail(std::string line, std::string folder = {});

  [[nodiscard]] bool running() const;
  // How it stands now; the line of the last job stays until the next one starts.
  [[nodiscard]] BundleSeen seen() const;
  void wait();

 private:
  struct State;
  void begin(BundleSeen seen, std::function<BundleSeen(const storage::OnProgress&)> work);

  std::shared_ptr<State> state_;
};

}  // namespace ui
