#include "ui/app/bundle_job.h"

#include <doctest/doctest.h>

#include "tests/support/bag_fixture.h"

namespace bundle_job_test {

using State = ui::BundleSeen::State;
using storage::Medium;

namespace {

ui::BundleSeen write(storage::BagRequest request) {
  ui::BundleJob job;
  job.start(std::move(request), 7);
  job.wait();
  return job.seen();
}

}  // namespace

TEST_CASE("a bundle on a stick is safe to pull, one in a folder is only written") {
  const bags::TempFolder t;
  storage::BagRequest request = bags::evening(t.path());
  const ui::BundleSeen stick = write(request);
  CHECK(stick.state == State::Safe);
  CHECK(stick.folder == t.path());
  CHECK(stick.entries == 7U);
  request.medium = Medium::Folder;
  CHECK(write(request).state == State::Written);
}

TEST_CASE("a place that takes no files is a failure in plain words") {
  const bags::TempFolder t;
  storage::BagRequest request = bags::evening(t.path() + "/gone");
  request.medium = Medium::Folder;
  const ui::BundleSeen seen = write(request);
  CHECK(seen.state == State::Failed);
  CHECK(seen.line.find('/') == std::string::npos);
  CHECK(seen.line.find("Choose another place.") != std::string::npos);
}

TEST_CASE("letting go of a stick without writing says nothing about a log") {
  const bags::TempFolder t;
  ui::BundleJob job;
  job.release(t.path());
  job.wait();
  CHECK(job.seen().state == State::Safe);
  CHECK(job.seen().line.empty());
}

TEST_CASE("every failure is said without a path, once, and with what to do") {
  using engine::Code;
  for (const Code code : {Code::BadInput, Code::NotFound, Code::Full, Code::ReadOnly, Code::Gone,
                          Code::Damaged, Code::Busy, Code::Failed}) {
    for (const Medium medium : {Medium::Stick, Medium::Folder}) {
      const std::string row = std::string(engine::name(code)) + ", " + storage::name(medium);
      INFO(row);
      const engine::Status status(code,
                                  "the medium is full (/media/x/.part-7: No space left on "
                                  "device): free some space or use another stick");
      const std::string line = ui::plain_failure(status, medium);
      CHECK(line.find('/') == std::string::npos);
      CHECK(line.find("safe") == std::string::npos);
      CHECK(line.back() == '.');
      CHECK((line[0] >= 'A' && line[0] <= 'Z'));
    }
  }
}

TEST_CASE("a full stick is said with its numbers") {
  const auto status = storage::no_room(Medium::Stick, 2'000'000, 1'000'000);
  CHECK(ui::plain_failure(status, Medium::Stick) ==
        "The stick is full: 2.0 MB needed, 1.0 MB free; free some space or use another stick.");
}

}  // namespace bundle_job_test
