// tests/support/sync_watch.h -- sees every fsync of the test program itself.
#pragma once
#include <functional>
#include <string>

// Calls `see` with the path of whatever is flushed (fsync) for as long as the object lives.
class SyncWatch {
 public:
  explicit SyncWatch(std::function<void(const std::string&)> see);
  ~SyncWatch();
  SyncWatch(const SyncWatch&) = delete;
  SyncWatch& operator=(const SyncWatch&) = delete;
};
