#include "ui/touch/entry.h"

#include <doctest/doctest.h>

#include "tests/support/rig.h"
#include "ui/touch/lists.h"

namespace entry_test {

using test::Rig;
using ui::Entry;
using ui::Touch;

namespace {

struct Number {
  Rig rig;
  ui::NumberAsk ask{"Grams", "g", 0.5, 40, 1, {{"20 g", 20}}};
  ui::NumberEntry entry;
  Entry last = Entry::Open;

  Number() {
    rig.show([this](Touch& t) {
      const Entry now = ui::keypad(t, ui::dialog_panel(t, "Acid"), ask, entry);
      if (now != Entry::Open) last = now;
    });
  }
  Number& type(const std::string& keys) {
    for (const char key : keys) rig.tap(key == '<' ? "DELETE" : std::string(1, key));
    return *this;
  }
  [[nodiscard]] bool may_ok() const { return rig.find("OK").enabled; }
};

struct Note {
  Rig rig;
  ui::TextAsk ask{"Note", 6, false};
  ui::TextEntry entry;
  Entry last = Entry::Open;

  Note() {
    rig.show([this](Touch& t) {
      const Entry now = ui::letters(t, ui::dialog_panel(t, "B3"), ask, entry);
      if (now != Entry::Open) last = now;
    });
  }
  void type(const std::vector<std::string>& keys) {
    for (const std::string& key : keys) rig.tap(key);
  }
};

}  // namespace

TEST_CASE("OK waits for a number inside the range") {
  struct Row {
    std::string keys;
    bool ok;
  };
  const Row rows[] = {{"", false},     {"0.4", false}, {"0.5", true}, {"40", true},
                      {"40.1", false}, {"41", false},  {"2<", false}, {"2.", true}};
  for (const Row& r : rows) {
    INFO(r.keys);
    Number n;
    CHECK(n.type(r.keys).may_ok() == r.ok);
  }
}

TEST_CASE("the range is said in plain numbers, or in words of the ask's own") {
  struct Row {
    std::string name;
    ui::NumberAsk ask;
    std::string says;
  };
  const Row rows[] = {
      {"large whole numbers", {"", "", 20000101, 20991231}, "20000101 to 20991231"},
      {"decimals", {"", "g", 0.5, 40, 1}, "0.5 to 40 g"},
      {"a hint", {"", "", 20000101, 20991231, 0, {}, "year, month, day"}, "year, month, day"}};
  for (const Row& r : rows) {
    INFO(r.name);
    Rig rig;
    ui::NumberEntry entry;
    rig.show([&](Touch& t) { (void)ui::keypad(t, ui::dialog_panel(t, ""), r.ask, entry); });
    CHECK(rig.sees(r.says));
  }
}

TEST_CASE("keys that make no number change nothing") {
  struct Row {
    std::string keys, want;
  };
  const Row rows[] = {{"007", "7"},   {".5", "0.5"}, {"1.2.3", "1.2"},           {"1.23", "1.2"},
                      {"12<3", "13"}, {"0.<", "0"},  {"1234567890", "123456789"}};
  for (const Row& r : rows) {
    INFO(r.keys);
    Number n;
    CHECK(n.type(r.keys).entry.typed == r.want);
  }
}

TEST_CASE("the value comes with OK, a preset at once, cancel brings none") {
  Number ok;
  ok.type("12.5").rig.tap("OK");
  CHECK(ok.last == Entry::Done);
  CHECK(ok.entry.value == doctest::Approx(12.5));
  Number preset;
  preset.rig.tap("20 g");
  CHECK(preset.last == Entry::Done);
  CHECK(preset.entry.value == 20);
  Number cancelled;
  cancelled.type("7").rig.tap("CANCEL");
  CHECK(cancelled.last == Entry::Cancelled);
}

TEST_CASE("without decimals there is no decimal key; a comma can be its face") {
  Number whole;
  whole.ask.decimals = 0;
  whole.rig.frame();
  CHECK_THROWS((void)whole.rig.find("."));
  Number comma;
  ui::Words words;
  words.decimal_point = ",";
  comma.rig.touch.set_words(words);
  comma.rig.frame();
  comma.type("1,5");
  CHECK(comma.entry.typed == "1.5");
  CHECK(comma.rig.sees("1,5"));
}

TEST_CASE("a range that goes below zero has a key for the sign") {
  Number n;
  CHECK_FALSE(n.rig.sees("+/-"));
  n.ask = {"Air", "°C", -40, 60};
  n.rig.frame();
  n.type("7").rig.tap("+/-");
  CHECK(n.entry.typed == "-7");
  CHECK(n.may_ok());
  n.rig.tap("+/-");
  CHECK(n.entry.typed == "7");
  n.rig.tap("+/-");
  n.type("0");  // -70 is not in the range
  CHECK_FALSE(n.may_ok());
  n.type("<").rig.tap("OK");
  CHECK(n.last == Entry::Done);
  CHECK(n.entry.value == -7);
}

TEST_CASE("letters begin large, go on small, and the signs are a page away") {
  Note n;
  n.type({"Q", "u", "SPACE", "123", "7", "ABC", "e"});
  CHECK(n.entry.typed == "Qu 7e");
  n.type({"SHIFT", "X"});
  CHECK(n.entry.typed == "Qu 7eX");
  n.type({"z"});
  CHECK(n.entry.typed == "Qu 7eX");  // six letters are the most
  n.type({"DELETE", "OK"});
  CHECK(n.entry.typed == "Qu 7e");
  CHECK(n.last == Entry::Done);
}

TEST_CASE("delete takes a whole letter, whatever its bytes") {
  Note n;
  n.entry.typed = "a\xC3\xB1";
  n.rig.frame();
  n.type({"DELETE"});
  CHECK(n.entry.typed == "a");
}

TEST_CASE("nothing but spaces is no note") {
  Note n;
  n.type({"SPACE"});
  CHECK_FALSE(n.rig.find("OK").enabled);
  n.type({"CANCEL"});
  CHECK(n.last == Entry::Cancelled);
}

}  // namespace entry_test
