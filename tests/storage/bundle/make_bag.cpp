// tests/storage/bundle/make_bag.cpp -- a bundle for the scripts that ask outside tools about it.
//
//   make_bag write PARENT   writes one below PARENT and prints its path
//   make_bag check FOLDER   0 when the program finds FOLDER whole, 1 with what is wrong
#include <cstdio>
#include <string>

#include "storage/bundle/bag.h"

namespace {

int write(const std::string& parent) {
  storage::BagRequest request;
  request.parent = parent;
  request.device_short = "3f9a1c20";
  request.day = "2026-08-14";
  request.bagging_date = "2026-08-14";
  request.payload = {{"events.jsonl", "{\"seq\":1}\n{\"seq\":2}\n"},
                     {"day.csv", "yard,colony\r\nThistle Bank,B3\r\n"},
                     {"maps/yards of the evening.geojson", std::string(700'001, 'g')},
                     {"empty.txt", ""}};
  request.tags = {{"Source-Organization", "Thistle Bank Bees"}};
  const auto done = storage::write_bag(request);
  if (done.ok())
    std::printf("%s\n", done.value().folder.c_str());
  else
    std::fprintf(stderr, "%s\n", done.status().message().c_str());
  return done.ok() ? 0 : 1;
}

int check(const std::string& folder) {
  const auto report = storage::check_bag(folder);
  const engine::Status status = report.ok() ? report.value().verdict() : report.status();
  if (!status.ok()) std::fprintf(stderr, "%s\n", status.message().c_str());
  return status.ok() ? 0 : 1;
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count == 3 ? words[1] : "";
  if (what == "write") return write(words[2]);
  if (what == "check") return check(words[2]);
  std::fprintf(stderr, "make_bag write PARENT | make_bag check FOLDER\n");
  return 2;
}
