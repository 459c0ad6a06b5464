#include "engine/core/status.h"

#include <doctest/doctest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <string>

namespace status_test {

using engine::Code;
using engine::Result;

namespace {

struct Ended {
  int status = 0;
  std::string said;
};

// In a process of its own, whose error output is kept.
Ended value_of(const Result<int>& result) {
  std::array<int, 2> ends{};
  REQUIRE(pipe(ends.data()) == 0);
  const pid_t child = fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const rlimit no_core{0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    std::signal(SIGABRT, SIG_DFL);  // doctest's own handler would print
    dup2(ends[1], STDERR_FILENO);
    _exit(result.value() == 7 ? 0 : 1);
  }
  close(ends[1]);
  Ended ended;
  std::array<char, 256> part{};
  for (ssize_t n = 0; (n = read(ends[0], part.data(), part.size())) > 0;)
    ended.said.append(part.data(), static_cast<std::size_t>(n));
  close(ends[0]);
  REQUIRE(waitpid(child, &ended.status, 0) == child);
  return ended;
}

}  // namespace

TEST_CASE("the value of a result that has one is given") {
  const Ended ended = value_of(7);
  CHECK(WIFEXITED(ended.status));
  CHECK(WEXITSTATUS(ended.status) == 0);
}

TEST_CASE("asking a failure for its value ends the program with the reason, in every build") {
  const Ended ended = value_of({Code::Gone, "the stick was pulled"});
  CHECK(WIFSIGNALED(ended.status));
  CHECK(WTERMSIG(ended.status) == SIGABRT);
  CHECK(ended.said.find("the stick was pulled (gone)") != std::string::npos);
}

}  // namespace status_test
