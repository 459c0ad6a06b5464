#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>

#include "ui/commands/commands.h"

namespace ui {
namespace {

// A day as text until the words are all read; a wrong one is named by its option.
struct DayText {
  std::string text;
  [[nodiscard]] bool read(std::optional<engine::Date>& into) const {
    if (text.empty()) return true;
    into = engine::date_from_iso(text);
    return into.has_value();
  }
};

std::string first_line(std::string text) { return text.substr(0, text.find('\n')); }

class Program {
 public:
  explicit Program(const Surroundings& around) : around_(around) {
    cli_.require_subcommand(0, 1);
    cli_.set_version_flag("--version", "duskwalk " DUSKWALK_VERSION);
    add_screens();
    add_read();
    add_due();
    add_bundle();
    add_verify();
    add_register();
    add_play();
  }

  int run(int argc, const char* const* argv) {
    try {
      cli_.parse(argc, argv);
    } catch (const CLI::Success& help) {
      return cli_.exit(help);
    } catch (const CLI::ParseError& wrong) {
      return say_failure(engine::Code::BadInput,
                         first_line(wrong.what()) + " (duskwalk --help shows the calls)");
    }
    return command_();
  }

 private:
  CLI::App* sub(const char* name, const char* does, std::function<int()> run) {
    CLI::App* command = cli_.add_subcommand(name, does);
    command->add_option("--store", store_, "the store's file");
    command->callback([this, run = std::move(run)] { command_ = run; });
    return command;
  }

  template <class Call>
  Call with_store(Call call) const {
    call.store = store_;
    return call;
  }

  static int wrong_day(const char* option, const DayText& day) {
    return say_failure(engine::Code::BadInput,
                       fmt::format("{}: \"{}\" is no day like 2026-08-14", option, day.text));
  }

  void add_screens() {
    cli_.add_option("--store", store_, "the store's file");
    cli_.add_flag("--full-screen", screens_.full_screen, "use the whole screen");
    cli_.add_option("--scale", scale_, "millimetres per pixel, when the display lies")
        ->check(CLI::Range(0.02, 2.0));
    cli_.add_option("--theme", theme_, "sun or dusk")->check(CLI::IsMember({"sun", "dusk"}));
    cli_.add_option("--language", language_, "en")->check(CLI::IsMember({"en"}));
    command_ = [this] {
      screens_.mm_per_px = scale_;
      screens_.theme = engine::from_name<engine::Theme>(theme_);
      return screens_command(with_store(screens_), around_);
    };
  }

  void add_read() {
    sub("read", "take in yards, colonies or counts from a spreadsheet",
        [this] { return read_command(with_store(read_), around_); })
        ->add_option("file", read_.file, "CSV file")
        ->required();
  }

  void add_due() {
    CLI::App* c = sub("due", "what is due", [this] {
      if (!on_.read(due_.on)) return wrong_day("--on", on_);
      return due_command(with_store(due_), around_);
    });
    c->add_option("--on", on_.text, "day, such as 2026-08-14; today when left out");
    c->add_flag("--json", due_.json, "as JSON");
  }

  void add_bundle() {
    CLI::App* c = sub("bundle", "write the log as a bundle and check it", [this] {
      if (!day_.read(bundle_.day)) return wrong_day("--day", day_);
      return bundle_command(with_store(bundle_), around_);
    });
    c->add_option("folder", bundle_.folder, "folder that gets the bundle")->required();
    c->add_option("--day", day_.text, "only this day");
  }

  void add_verify() {
    sub("verify", "check the journal, or a bundle", [this] {
      return verify_command(with_store(verify_), around_);
    })->add_option("folder", verify_.folder, "bundle; the journal when left out");
  }

  void add_register() {
    CLI::App* c = sub("register", "write the treatment register", [this] {
      if (!from_.read(register_.from)) return wrong_day("--from", from_);
      if (!to_.read(register_.to)) return wrong_day("--to", to_);
      return register_command(with_store(register_), around_);
    });
    c->add_option("--from", from_.text, "first day");
    c->add_option("--to", to_.text, "last day");
    c->add_option("--yard", register_.yard, "only this yard");
    c->add_option("--out", register_.file, "FILE.csv or FILE.html")->required();
  }

  void add_play() {
    CLI::App* c = sub("play", "play a script on the real screens",
                      [this] { return play_command(with_store(play_), around_); });
    c->add_option("script", play_.script, "play script")->required();
    c->add_option("--out", play_.out, "folder for pictures")->required();
  }

  const Surroundings& around_;
  CLI::App cli_{"Duskwalk: yard walks against varroa, offline", "duskwalk"};
  std::function<int()> command_;
  std::string store_, theme_, language_ = "en";
  std::optional<double> scale_;
  ScreensCall screens_;
  ReadCall read_;
  DueCall due_;
  BundleCall bundle_;
  VerifyCall verify_;
  RegisterCall register_;
  PlayCall play_;
  DayText on_, day_, from_, to_;
};

}  // namespace

int run_program(int argc, const char* const* argv, const Surroundings& around) {
  return Program(around).run(argc, argv);
}

}  // namespace ui
