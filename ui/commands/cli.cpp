#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <optional>
#include <system_error>

#include "ui/app/languages.h"
#include "ui/commands/call_list.h"
#include "ui/commands/commands.h"
#include "ui/commands/help.h"

namespace ui {
namespace {

// The words of an option, kept apart from "not given": an empty word is an answer, a wrong one.
struct GivenText {
  std::string text;
  CLI::Option* option = nullptr;
  [[nodiscard]] bool given() const { return option != nullptr && option->count() > 0; }
  // As a day; a wrong one is named by its option.
  [[nodiscard]] bool read(std::optional<engine::Date>& into) const {
    if (!given()) return true;
    into = engine::date_from_iso(text);
    return into.has_value();
  }
};

std::string first_line(std::string text) { return text.substr(0, text.find('\n')); }

// What was printed is still on its way until it is flushed: a full disk shows itself here.
int all_printed(int code) {
  std::cout.flush();
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0 && std::cout) return code;
  if (code != 0) return code;  // one line was said already
  return say_failure(engine::Code::Failed,
                     fmt::format("standard output cannot be written: {}", std::strerror(errno)));
}

class Program {
 public:
  explicit Program(const Surroundings& around) : around_(around) {
    cli_.require_subcommand(0, 1);
    cli_.set_version_flag("--version", "duskwalk " DUSKWALK_VERSION);
    add_screens();
    add_read();
    add_due();
    add_bundle();
    add_merge();
    add_backup();
    add_exchange();
    add_pair();
    add_verify();
    add_register();
    add_tags();
    add_order();
    add_mites();
    add_light();
    add_play();
    add_update();
    add_help();
  }

  int run(int argc, const char* const* argv) {
    try {
      cli_.parse(argc, argv);
    } catch (const CLI::Success& help) {
      return all_printed(cli_.exit(help));
    } catch (const CLI::ParseError& wrong) {
      return say_failure(engine::Code::BadInput,
                         first_line(wrong.what()) + " (duskwalk --help shows the calls)");
    }
    if (const engine::Status words = shared_words(); !words.ok())
      return say_failure(words.code(), words.message());
    try {
      if (const engine::Status spoken = speak(); !spoken.ok()) return say_failure(spoken);
      return all_printed(command_());
    } catch (const std::system_error& unprinted) {  // fmt::print: the buffer went over
      return say_failure(engine::Code::Failed, fmt::format("standard output cannot be written: {}",
                                                           unprinted.code().message()));
    } catch (const std::exception& mistake) {  // of this program: one line, and no abort
      return say_failure(engine::Code::Failed,
                         fmt::format("this could not be worked out: {}", mistake.what()));
    }
  }

 private:
  // Whether the words that every call shares are fine.
  [[nodiscard]] engine::Status shared_words() const {
    for (const CLI::Option* option : stores_)
      if (option->count() > 0 && store_.empty())
        return {engine::Code::BadInput, "--store: the file's name is missing"};
    return {};
  }

  // The screens go by the system where nobody chose. A script is in the language that its words
  // are in, which nobody's system may change.
  engine::Status speak() {
    if (!language_.empty()) {
      const engine::Status spoken = languages_.speak(language_);
      if (spoken.ok()) return {};
      return {engine::Code::BadInput,
              fmt::format("--language: \"{}\" is not there; en and es are", language_)};
    }
    if (cli_.get_subcommands().empty()) languages_.speak_as_system(around_.environment);
    return {};
  }

  void add_store_to(CLI::App& app) {
    stores_.push_back(app.add_option("--store", store_, "the store's file")->type_name(kFileValue));
  }

  CLI::App* sub(const char* name, const char* does, std::function<int()> run) {
    CLI::App* command = cli_.add_subcommand(name, does);
    add_store_to(*command);
    command->callback([this, run = std::move(run)] { command_ = run; });
    return command;
  }

  template <class Call>
  Call with_store(Call call) const {
    call.store = store_;
    return call;
  }

  static void add_readable_to(CLI::App& app, CommonCall& call) {
    app.add_flag("--readable", call.readable, "of a store that is locked, what can be read");
  }

  void add_schema_to(CLI::App& app) {
    app.add_flag("--schema", schema_, "the JSON Schema of the JSON");
  }

  static int no_file(const std::string& command) {
    return say_failure(
        engine::Code::BadInput,
        fmt::format("{0}: file is required (duskwalk {0} --help shows it)", command));
  }

  static int wrong_day(const GivenText& day) {
    return say_failure(engine::Code::BadInput, fmt::format("{}: \"{}\" is no day like 2026-08-14",
                                                           day.option->get_name(), day.text));
  }

  void add_screens() {
    add_store_to(cli_);
    cli_.add_flag("--full-screen", screens_.full_screen, "use the whole screen");
    cli_.add_option("--scale", scale_, "millimetres per pixel, when the display lies")
        ->type_name("NUMBER")
        ->check(CLI::Range(0.02, 2.0));
    cli_.add_option("--theme", theme_, "of the screens")
        ->type_name("NAME")
        ->check(CLI::IsMember({"sun", "dusk", "night"}));
    cli_.add_option("--language", language_, "of the screens: en or es; else the system's")
        ->type_name("CODE");
    command_ = [this] {
      screens_.mm_per_px = scale_;
      screens_.theme = engine::from_name<engine::Theme>(theme_);
      return screens_command(with_store(screens_), around_);
    };
  }

  void add_read() {
    auto* c = sub("read", "take in yards, colonies or counts from a spreadsheet",
                  [this] { return read_command(with_store(read_), around_); });
    c->add_option("file", read_.file, "the sheet: CSV, .xlsx or .ods")
        ->type_name(kFileValue)
        ->required();
    c->add_option("--sheet", read_.sheet, "which sheet of a workbook; else its first with cells")
        ->type_name("NAME");
    c->add_flag("--yes", read_.yes, "take it in without asking, on a terminal too");
  }

  void add_due() {
    CLI::App* c = sub("due", "what is due", [this] {
      if (schema_) return print_schema("due", around_);
      if (!on_.read(due_.on)) return wrong_day(on_);
      return due_command(with_store(due_), around_);
    });
    add_readable_to(*c, due_);
    on_.option = c->add_option("--on", on_.text, "day, such as 2026-08-14; today when left out")
                     ->type_name("DAY");
    c->add_flag("--json", due_.json, "as JSON");
    add_schema_to(*c);
  }

  void add_bundle() {
    CLI::App* c = sub("bundle", "write the log as a bundle and check it", [this] {
      if (!day_.read(bundle_.day)) return wrong_day(day_);
      if (bundle_.sql && bundle_.day)
        return say_failure(engine::Code::BadInput, "--day: --sql writes all of the log");
      return bundle_.sql ? sql_command(with_store(bundle_), around_)
                         : bundle_command(with_store(bundle_), around_);
    });
    add_readable_to(*c, bundle_);
    c->add_option("folder", bundle_.folder, "folder that gets the bundle")
        ->type_name(kFolderValue)
        ->required();
    day_.option = c->add_option("--day", day_.text, "only this day")->type_name("DAY");
    CLI::Option* others = c->add_flag(
        "--for-others", bundle_.for_others,
        "for somebody outside: register and stock without entries, places, notes and addresses");
    c->add_flag("--with-private", bundle_.with_private, "with the notes and addresses")
        ->needs(others);
    c->add_flag("--sql", bundle_.sql, "tables for PostgreSQL instead of a bundle");
  }

  void add_merge() {
    sub("merge", "take in the bundles of other tablets",
        [this] { return merge_command(with_store(merge_), around_); })
        ->add_option("folders", merge_.folders, "folders that hold bundles, at any depth")
        ->type_name(kFolderValue)
        ->required();
  }

  void add_backup() {
    CLI::App* b = sub("backup", "copy the whole store into one new file",
                      [this] { return backup_command(with_store(backup_), around_); });
    b->add_option("file", backup_.file, "the file to make")->type_name(kFileValue)->required();
    b->add_option("--seal", backup_.passphrase_file,
                  "seal it with the passphrase that is the first line of this file")
        ->type_name(kFileValue);
    CLI::App* c = sub("restore", "make a new store from a backup, or from a locked store",
                      [this] { return restore_command(with_store(restore_), around_); });
    c->add_option("file", restore_.file, "the backup")->type_name(kFileValue);
    c->add_option("--seal", restore_.passphrase_file, "file with the passphrase of a sealed backup")
        ->type_name(kFileValue);
    c->add_flag("--go-on", restore_.go_on,
                "go on, under a new tablet id, with what can be read of a store that is locked");
  }

  void add_exchange() {
    CLI::App* c = sub("exchange", "take in the bundles of a folder and put out what it lacks",
                      [this] { return exchange_command(with_store(exchange_), around_); });
    c->add_option("folder", exchange_.folder, "the folder that other tablets see too")
        ->type_name(kFolderValue)
        ->required();
    c->add_option("--every", exchange_.every, "go on watching it, a pass each so many seconds")
        ->type_name("SECONDS")
        ->check(CLI::Range(1, 86'400));
    c->add_option("--postgres", exchange_.postgres,
                  "then load the store into that PostgreSQL (a password belongs into ~/.pgpass)")
        ->type_name("URL");
  }

  void add_pair() {
    CLI::App* c =
        sub("pair", "show this tablet's words, pair with another, decide what counts", [this] {
          if (words_.given()) pair_.words = words_.text;
          if (code_.given()) pair_.code = code_.text;
          if (take_in_.given()) pair_.take_in = take_in_.text;
          if (keep_out_.given()) pair_.keep_out = keep_out_.text;
          return pair_command(with_store(pair_), around_);
        });
    words_.option = c->add_option("--words", words_.text, "the eight words of the other tablet")
                        ->type_name("WORDS");
    code_.option = c->add_option("--code", code_.text, "what the QR code of the other tablet says")
                       ->type_name("CODE");
    take_in_.option = c->add_option("--take-in", take_in_.text,
                                    "tablet whose entries count from now on, as they are here")
                          ->type_name("TABLET");
    keep_out_.option =
        c->add_option("--keep-out", keep_out_.text, "tablet whose entries do not count")
            ->type_name("TABLET");
    c->add_option("--from", pair_.from, "number of the first entry that is kept out")
        ->type_name("NUMBER")
        ->check(CLI::PositiveNumber)
        ->needs(keep_out_.option);
    c->add_flag("--close", pair_.close, "from now on only known and paired tablets count");
  }

  void add_verify() {
    sub("verify", "check the journal, or a bundle",
        [this] { return verify_command(with_store(verify_), around_); })
        ->add_option("folder", verify_.folder, "bundle; the journal when left out")
        ->type_name(kFolderValue);
  }

  void add_register() {
    CLI::App* c = sub("register", "write the treatment register", [this] {
      if (!from_.read(register_.from)) return wrong_day(from_);
      if (!to_.read(register_.to)) return wrong_day(to_);
      if (yard_.given()) register_.yard = yard_.text;
      if (lot_.given()) register_.lot = lot_.text;
      return register_command(with_store(register_), around_);
    });
    add_readable_to(*c, register_);
    from_.option = c->add_option("--from", from_.text, "first day")->type_name("DAY");
    to_.option = c->add_option("--to", to_.text, "last day")->type_name("DAY");
    yard_.option = c->add_option("--yard", yard_.text, "only this yard")->type_name("NAME");
    lot_.option = c->add_option("--lot", lot_.text, "only what was given from the lot of this code")
                      ->type_name("CODE");
    c->add_option("--form", register_.form, "of what goes to standard output; csv when left out")
        ->type_name("FORM")
        ->check(CLI::IsMember({"csv", "html", "pdf", "xlsx"}));
    c->add_option("--law", register_.law, "say what that law asks for and the rows lack")
        ->type_name("LAW")
        ->check(CLI::IsMember({"eu", "uk", "us_organic", "nsw"}));
    c->add_option("--out", register_.file, "FILE.csv, .html, .pdf or .xlsx; - for standard output")
        ->type_name(kFileValue)
        ->required();
  }

  void add_tags() {
    CLI::App* c = sub("tags", "write a sheet of hive tags to print", [this] {
      if (tag_yard_.given()) tags_.yard = tag_yard_.text;
      return tags_command(with_store(tags_), around_);
    });
    add_readable_to(*c, tags_);
    tag_yard_.option = c->add_option("--yard", tag_yard_.text, "only this yard")->type_name("NAME");
    c->add_option("--out", tags_.file, "FILE.pdf; - for standard output")
        ->type_name(kFileValue)
        ->required();
  }

  static bool read_range(const std::string& text, int& from, int& to) {
    char rest = 0;
    return std::sscanf(text.c_str(), "%d-%d%c", &from, &to, &rest) == 2 && from >= 1 &&
           from <= to && to <= 100;
  }

  void add_order() {
    CLI::App* c = cli_.add_subcommand("order", "in which order to walk a yard");
    c->callback([this] {
      command_ = [this] {
        if (schema_) return print_schema("order", around_);
        if (order_.file.empty()) return no_file("order");
        if (cloths_.given()) order_.table = true;
        if (cloths_.given() && !read_range(cloths_.text, order_.cloths_from, order_.cloths_to))
          return say_failure(engine::Code::BadInput,
                             fmt::format("--cloths: \"{}\" is no range like 2-8", cloths_.text));
        return order_command(order_);
      };
    });
    c->add_option("file", order_.file, "the yard as JSON; - for standard input")
        ->type_name(kFileValue);
    add_schema_to(*c);
    c->add_flag("--table", order_.table, "finish and longest seal for 1 to 12 cloths");
    cloths_.option =
        c->add_option("--cloths", cloths_.text, "of the table, such as 2-8")->type_name("FROM-TO");
  }

  void add_mites() {
    CLI::App* c = cli_.add_subcommand("mites", "ask the mite model, or what counts say");
    c->callback([this] {
      command_ = [this] {
        if (schema_) return print_schema("mites", around_);
        return mites_.file.empty() ? no_file("mites") : mites_command(mites_);
      };
    });
    c->add_option("file", mites_.file, "the question as JSON; - for standard input")
        ->type_name(kFileValue);
    add_schema_to(*c);
  }

  void add_light() {
    CLI::App* c = cli_.add_subcommand("light", "sunrise, sunset and civil twilight of a place");
    c->callback([this] {
      command_ = [this] {
        if (!date_.read(light_.date)) return wrong_day(date_);
        return light_command(light_);
      };
    });
    c->add_option("--lat", light_.lat, "latitude in degrees, north")
        ->type_name("DEGREES")
        ->required();
    c->add_option("--lon", light_.lon, "longitude in degrees, east")
        ->type_name("DEGREES")
        ->required();
    date_.option = c->add_option("--date", date_.text, "day, such as 2026-08-14")
                       ->type_name("DAY")
                       ->required();
    c->add_option("--zone", light_.zone, "time zone, such as America/Chicago")
        ->type_name("ZONE")
        ->required();
    c->add_flag("--json", light_.json, "as JSON");
  }

  void add_play() {
    CLI::App* c = sub("play", "play a script on the real screens",
                      [this] { return play_command(with_store(play_), around_); });
    c->add_option("script", play_.script, "play script")->type_name(kFileValue)->required();
    c->add_option("--out", play_.out, "folder for pictures")->type_name(kFolderValue)->required();
    c->add_option("--language", language_, "of the screens: en, which it is by itself, or es")
        ->type_name("CODE");
  }

  void add_update() {
    CLI::App* c = cli_.add_subcommand("update", "check an update file of a tablet");
    c->callback([this] { command_ = [this] { return update_command(update_); }; });
    c->add_option("file", update_.file, "the update")->type_name(kFileValue)->required();
    c->add_option("--key", update_.key, "the public key of those who make updates")
        ->type_name(kFileValue)
        ->required();
    c->add_option("--payload", update_.payload, "the file that gets what was checked")
        ->type_name(kFileValue);
  }

  void add_help() {
    CLI::App* c = cli_.add_subcommand("help", "what a command does, and its options");
    c->callback([this] { command_ = [this] { return help_command(help_, cli_); }; });
    c->add_option("command", help_.command, "its name; all commands when left out")
        ->type_name("NAME");
    c->add_flag("--dictionary", help_.dictionary,
                "every kind of entry in the journal: fields, types, units, meanings");
    c->add_flag("--man", help_.man, "as a page of the manual");
    c->add_option("--completion", help_.shell, "the completion of a shell")
        ->type_name("SHELL")
        ->check(CLI::IsMember({"bash", "zsh", "fish"}));
  }

  const Surroundings& around_;
  CLI::App cli_{"Duskwalk: yard walks against varroa, offline", "duskwalk"};
  std::function<int()> command_;
  Languages languages_{around_.translations};
  std::string store_, theme_, language_;
  std::optional<double> scale_;
  ScreensCall screens_;
  ReadCall read_;
  DueCall due_;
  BundleCall bundle_;
  MergeCall merge_;
  BackupCall backup_;
  RestoreCall restore_;
  ExchangeCall exchange_;
  PairCall pair_;
  VerifyCall verify_;
  RegisterCall register_;
  TagsCall tags_;
  OrderCall order_;
  MitesCall mites_;
  LightCall light_;
  PlayCall play_;
  UpdateCall update_;
  HelpCall help_;
  GivenText words_, code_, take_in_, keep_out_;
  bool schema_ = false;  // of the command that is called
  GivenText on_, day_, from_, to_, yard_, lot_, tag_yard_, cloths_, date_;
  std::vector<const CLI::Option*> stores_;
};

}  // namespace

int run_program(int argc, const char* const* argv, const Surroundings& around) {
  return Program(around).run(argc, argv);
}

}  // namespace ui
