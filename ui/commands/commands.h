// ui/commands/commands.h -- what the program does beside its screens: one function a command.
//
// Each returns the exit code: 0 done; 1 could not be done (stick full, journal damaged); 2 the call
// or the input is wrong. A failure is one line on standard error, with nothing on standard output
// and nothing changed.
#pragma once
#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "storage/disk/paths.h"
#include "storage/store/store.h"

namespace ui {

// The world as main() sees it; everything else is told.
struct Surroundings {
  std::function<engine::Stamp()> now;
  std::function<engine::UuidBytes(std::int64_t unix_ms)> new_id;
  storage::Environment environment;
  // Whether the program was asked to end (ui/commands/stop_signals.h), and a descriptor that is
  // readable from then on; -1: none.
  std::function<bool()> stopped = [] { return false; };
  int stop_fd = -1;
  std::string assets;        // the folder of label profiles and themes
  std::string translations;  // the folder of catalogues, one folder a language
};

struct CommonCall {
  std::string store;      // --store; empty: by environment
  bool readable = false;  // of a locked store, what can be read
};

struct ScreensCall : CommonCall {
  bool full_screen = false;
  std::optional<double> mm_per_px;
  std::optional<engine::Theme> theme;
};
struct ReadCall : CommonCall {
  std::string file;
  std::string sheet;  // of a workbook; empty: the first with anything in it
  bool yes = false;   // take it without asking
};
struct DueCall : CommonCall {
  std::optional<engine::Date> on;
  bool json = false;
};
struct BundleCall : CommonCall {
  std::string folder;
  bool sql = false;           // tables for PostgreSQL instead of a bundle
  bool for_others = false;    // the register alone, without notes and addresses
  bool with_private = false;  // with them
  std::optional<engine::Date> day;
};
struct MergeCall : CommonCall {
  std::vector<std::string> folders;
};
struct BackupCall : CommonCall {
  std::string file;
  std::string passphrase_file;  // empty: it is not sealed
};
struct RestoreCall : CommonCall {
  std::string file;
  std::string passphrase_file;
  bool go_on = false;  // instead of a file: with what can be read of the store
};
struct ExchangeCall : CommonCall {
  std::string folder;
  std::optional<int> every;  // seconds; none: one pass
  std::string postgres;      // where each pass with news is loaded into; empty: nowhere
};
struct VerifyCall : CommonCall {
  std::string folder;  // empty: the journal
};
struct PairCall : CommonCall {
  std::optional<std::string> words;     // the eight of the other tablet
  std::optional<std::string> code;      // what its QR code says
  std::optional<std::string> take_in;   // a tablet, by the last digits of its id
  std::optional<std::string> keep_out;  // likewise
  std::optional<std::int64_t> from;     // number from which on it is kept out
  bool close = false;                   // only known and paired tablets from now on
};
struct RegisterCall : CommonCall {
  std::optional<engine::Date> from, to;
  std::optional<std::string> yard;
  std::optional<std::string> lot;  // its code
  std::string file;                // "-": standard output
  std::string form;                // "csv", "html", "pdf"; empty: by the file's name
  std::string law;                 // a name of engine::RecordLaw; empty: none is asked
};
struct TagsCall : CommonCall {
  std::optional<std::string> yard;
  std::string file;  // "-": standard output
};
struct OrderCall {
  std::string file;  // "-": standard input
  bool table = false;
  int cloths_from = 1, cloths_to = 12;  // of the table
};
struct MitesCall {
  std::string file;  // "-": standard input
};
struct LightCall {
  double lat = 0, lon = 0;  // degrees, north and east
  std::optional<engine::Date> date;
  std::string zone;  // IANA name
  bool json = false;
};
struct UpdateCall {
  std::string file, key;
  std::string payload;  // the file that gets what was checked; empty: it is only checked
};
struct PlayCall : CommonCall {
  std::string script;
  std::string out;
};

int screens_command(const ScreensCall& call, const Surroundings& around);
int read_command(const ReadCall& call, const Surroundings& around);
int due_command(const DueCall& call, const Surroundings& around);
int bundle_command(const BundleCall& call, const Surroundings& around);
int merge_command(const MergeCall& call, const Surroundings& around);
int backup_command(const BackupCall& call, const Surroundings& around);
int restore_command(const RestoreCall& call, const Surroundings& around);
int exchange_command(const ExchangeCall& call, const Surroundings& around);
int sql_command(const BundleCall& call, const Surroundings& around);
int verify_command(const VerifyCall& call, const Surroundings& around);
int pair_command(const PairCall& call, const Surroundings& around);
int register_command(const RegisterCall& call, const Surroundings& around);
int tags_command(const TagsCall& call, const Surroundings& around);
int order_command(const OrderCall& call);
int mites_command(const MitesCall& call);
int light_command(const LightCall& call);
// Whether an update file may go onto this tablet; nothing is installed.
int update_command(const UpdateCall& call);
int play_command(const PlayCall& call, const Surroundings& around);

// Reads the words of the call and runs the command they name.
int run_program(int argc, const char* const* argv, const Surroundings& around);

// ---- what the commands share ----

// Prints the line on standard error and gives the exit code that fits it.
int say_failure(const engine::Status& why);
int say_failure(engine::Code code, const std::string& line);
// What is wrong with a file that --out names, in one line; empty: it may be tried. "-" is standard
// output, where a PDF goes to anything but a terminal.
[[nodiscard]] std::string wrong_out(const std::string& file);

// The bytes of a file, or of standard input for "-"; at most 64 MiB.
[[nodiscard]] engine::Result<std::string> read_input(const std::string& file);

// The yards of that name, as spreadsheets name them (blanks around it and letter case do not
// matter); those given up too, for the register keeps them.
[[nodiscard]] std::vector<engine::YardId> yards_called(const engine::Farm& farm,
                                                       const std::string& name);

// The store by --store or environment; a new one is made only when `create`.
[[nodiscard]] engine::Result<storage::Store> open_store(const CommonCall& call,
                                                        const Surroundings& around, bool create);
// The same, but one with damage fails with its line: what is shown or written of it must be all of
// it. The screens and verify open a damaged one, to show what is left.
[[nodiscard]] engine::Result<storage::Store> open_whole_store(const CommonCall& call,
                                                              const Surroundings& around,
                                                              bool create);
// The whole store to answer a question from, and never to write. When another program has it open,
// that program hands out a copy (storage/journal/look_server.h); Busy when it does not answer.
[[nodiscard]] engine::Result<storage::Store> open_to_look(const CommonCall& call,
                                                          const Surroundings& around);
// The same, also of a locked store: damage() says so.
[[nodiscard]] engine::Result<storage::Store> open_any_to_look(const CommonCall& call,
                                                              const Surroundings& around);
// Waits; false: the program was asked to end.
[[nodiscard]] bool rest(const Surroundings& around, std::chrono::milliseconds time);
[[nodiscard]] engine::Result<std::string> store_file(const CommonCall& call,
                                                     const Surroundings& around);
// What tablets say that cannot all be so: how many, and each with its sides on a line of its own.
// Then what others have set that this tablet may use, where there is any.
void print_contradictions(const engine::Farm& farm);
// What is kept and does not count, a line a tablet: what it would do, and how to decide.
void print_held_back(const storage::Store& store);
// All of the journal, in its order.
[[nodiscard]] engine::Result<std::vector<storage::Sealed>> records_of(const storage::Store& store);

}  // namespace ui
