#include "ui/commands/stop_signals.h"

#include <sys/eventfd.h>
#include <unistd.h>

#include <csignal>
#include <cstdint>

namespace ui {
namespace {

volatile std::sig_atomic_t asked = 0;
int bell = -1;

void note(int) {
  asked = 1;
  const std::uint64_t one = 1;
  [[maybe_unused]] const ssize_t rung = ::write(bell, &one, sizeof one);
}

// Without SA_RESTART, so that whoever waits (for input, for the next pass) notices.
void hear(int signal) {
  struct sigaction now {};
  if (::sigaction(signal, nullptr, &now) != 0 || now.sa_handler == SIG_IGN) return;
  struct sigaction ours {};
  ours.sa_handler = note;
  ours.sa_flags = static_cast<int>(SA_RESETHAND);
  ::sigemptyset(&ours.sa_mask);
  (void)::sigaction(signal, &ours, nullptr);
}

}  // namespace

StopSignals::StopSignals() {
  bell = ::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
  for (const int signal : {SIGHUP, SIGINT, SIGTERM}) hear(signal);
}

bool StopSignals::came() const { return asked != 0; }
int StopSignals::fd() const { return bell; }

}  // namespace ui
