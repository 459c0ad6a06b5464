// storage/journal/look_server.h -- other programs may look while this one has the store.
//
// A store has one connection in one program, also for reading (JOURNAL.md, "Durable"). A second
// program that only asks (what is due, the register) connects to a socket beside the store,
//
//   STORE.look      mode 0600; programs of other users are turned away
//
// and the open program hands it a snapshot (snapshot.h) as an open file. Over the socket come
// bytes:
// '.' now and then while the copy is being made; 'd' with the file (SCM_RIGHTS of unix(7)) when it
// is done; or 'f' and one line why there is none. Then it is closed. Everything goes on in turn(),
// in steps, on the thread of the journal.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "storage/journal/snapshot.h"

namespace storage {

class LookServer {
 public:
  LookServer() = default;  // answers nobody
  // Beside the store that the caller has open. A medium without sockets (FAT): a Status, and nobody
  // can look.
  [[nodiscard]] static Result<LookServer> beside(const std::string& store_path);
  ~LookServer();
  LookServer(LookServer&& other) noexcept;
  LookServer& operator=(LookServer&& other) noexcept;

  [[nodiscard]] int fd() const { return socket_; }  // readable: call turn(); -1: answers nobody
  // Hears who asks and copies some pages more.
  void turn(const Journal& journal);
  [[nodiscard]] bool busy() const { return !asking_.empty(); }  // turn() wants to be called again
  // Before the journal is closed or another one takes its place: those who ask are turned away.
  void forget_journal();

 private:
  void hear();
  void answer_all(char word, const std::string& line);

  std::string path_;
  int socket_ = -1;
  std::vector<int> asking_;
  std::optional<Snapshot> snapshot_;
};

// The bytes of a snapshot, from the program that has the store open. Busy: nobody answered for as
// long as `patience` at any point.
[[nodiscard]] Result<std::string> look_through_open_program(const std::string& store_path,
                                                            std::chrono::milliseconds patience);

}  // namespace storage
