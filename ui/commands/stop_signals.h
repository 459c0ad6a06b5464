// ui/commands/stop_signals.h -- SIGHUP, SIGINT and SIGTERM ask the program to come to an end.
//
// The first one lets what is under way end whole or be taken back, closes the store and leaves; the
// same signal once more ends the program at once. One that is ignored when the program starts stays
// so (nohup). A signal handler can reach nothing but what lives as long as the program, so there is
// one of these, made in main().
#pragma once

namespace ui {

class StopSignals {
 public:
  StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;

  [[nodiscard]] bool came() const;
  [[nodiscard]] int fd() const;  // readable from the first one on; -1: the system gave none
};

}  // namespace ui
