// SPDX-License-Identifier: MIT
// storage/update/update_file.h -- a file that brings a tablet a newer system, and whether to trust
// it.
//
// Lines of text, an empty line, and the system itself:
//
//   duskwalk-update 1
//   version 0.2.0          of the program
//   architecture amd64     as Debian calls it
//   store 1                the newest format of stores that it reads
//   bytes 734003200        of what follows the empty line
//   sha256 64 digits       of the same
//   signature 128 digits   Ed25519 (RFC 8032) over all lines before this one, line feeds included
//
// What follows is trusted by its sum, the sum by the signature, the signature by a key that is on
// the tablet already. Only a later version goes in, and none that could not read the tablet's
// store.
#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

using UpdateKey = std::array<std::uint8_t, 32>;  // an Ed25519 public key

struct UpdateHeader {
  std::string version, architecture;
  int store = 0;            // format of stores
  std::uint64_t bytes = 0;  // of the payload
  std::string sha256;       // of the payload, 64 hexadecimal digits
};

// What runs on the tablet now.
struct RunningSystem {
  std::string version, architecture;
  int store = 0;
};

// 64 hexadecimal digits, a line feed allowed after them.
[[nodiscard]] std::optional<UpdateKey> read_update_key(std::string_view text);

// Of dotted numbers: below 0 when `a` is the earlier version. Nothing: one of them is no version.
[[nodiscard]] std::optional<int> compare_versions(std::string_view a, std::string_view b);

// `text`: the lines up to the empty one, with it. BadInput: no update; Damaged: not signed by the
// key. The line says what is wrong.
[[nodiscard]] engine::Result<UpdateHeader> read_update_header(std::string_view text,
                                                              const UpdateKey& key);

// Ok: it may replace what runs. BadInput with the reason otherwise.
[[nodiscard]] engine::Status may_replace(const UpdateHeader& update, const RunningSystem& running);

// All of the above on a file, and its payload read to its end and summed. `payload`: each piece of
// it as it was read, so that what is installed is what was checked; nothing of it may be used
// unless the answer is a header. Reading stops where `payload` says no, with its status.
using TakePayload = std::function<engine::Status(std::string_view piece)>;
[[nodiscard]] engine::Result<UpdateHeader> check_update(const std::string& file,
                                                        const UpdateKey& key,
                                                        const RunningSystem& running,
                                                        const TakePayload& payload = {});

}  // namespace storage
